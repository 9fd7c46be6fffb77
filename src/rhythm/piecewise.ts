import type { Seconds } from '../units/index.js';

/** A beat that was heard: its number and its time. */
export interface HeardBeat {
  readonly beat: number;
  readonly time: Seconds;
}

/** A stretch of beats on one line: time = offset + period · beat, for `from` ≤ beat < `to`. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly offset: Seconds;
  readonly period: Seconds;
  /** Heard beats it rests on and the sum of their squared residuals. */
  readonly count: number;
  readonly squares: number;
}

/** Pieces begin at multiples of this many beats. */
const STRIDE = 4;
/** A piece holds at least this many heard beats. */
const LEAST = 10;
/** Price of a piece: three parameters at BIC's log n, threefold because neighbouring residuals are alike. */
const PRICE = 9;

/**
 * The piecewise steady grid with the lowest price: optimal partition by dynamic programming, the number of pieces by the
 * Bayesian information criterion (Schwarz, 1978).
 * @param heard ascending in beat
 * @param beats number of beats of the grid
 * @param noise standard deviation of a heard beat about its line
 */
export function fitPieces(heard: readonly HeardBeat[], beats: number, noise: Seconds): Piece[] {
  const nodes = Math.ceil(beats / STRIDE);
  const sums = runningSums(heard, nodes);
  const price = PRICE * Math.log(Math.max(heard.length, 8));
  const cost = new Float64Array(nodes + 1).fill(Infinity);
  const back = new Int32Array(nodes + 1);
  cost[0] = 0;
  for (let to = 1; to <= nodes; to++) {
    for (let from = 0; from < to; from++) {
      if (!Number.isFinite(cost[from])) continue;
      const piece = lineOf(sums, from, to);
      if (!piece) continue;
      const total = cost[from] + piece.squares / noise ** 2 + price;
      if (total < cost[to]) {
        cost[to] = total;
        back[to] = from;
      }
    }
  }
  if (!Number.isFinite(cost[nodes])) {
    const whole = lineOf(sums, 0, nodes);
    return whole ? [whole] : [];
  }
  const pieces: Piece[] = [];
  for (let to = nodes; to > 0; to = back[to]) pieces.unshift(lineOf(sums, back[to], to)!);
  return pieces;
}

type Sums = readonly [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];

function runningSums(heard: readonly HeardBeat[], nodes: number): Sums {
  const sums = Array.from({ length: 6 }, () => new Float64Array(nodes + 1)) as unknown as Sums;
  let i = 0;
  for (let node = 1; node <= nodes; node++) {
    for (const s of sums) s[node] = s[node - 1];
    while (i < heard.length && heard[i].beat < node * STRIDE) {
      const { beat, time } = heard[i++];
      [1, beat, time, beat * beat, beat * time, time * time].forEach((v, k) => (sums[k][node] += v));
    }
  }
  return sums;
}

function lineOf(sums: Sums, fromNode: number, toNode: number): Piece | null {
  const [n, x, y, xx, xy, yy] = sums.map((s) => s[toNode] - s[fromNode]);
  if (n < LEAST) return null;
  const sxx = xx - (x * x) / n;
  const sxy = xy - (x * y) / n;
  const syy = yy - (y * y) / n;
  if (!(sxx > 0)) return null;
  const period = sxy / sxx;
  return {
    from: fromNode * STRIDE,
    to: toNode * STRIDE,
    offset: (y - period * x) / n,
    period,
    count: n,
    squares: Math.max(0, syy - sxy * period),
  };
}
