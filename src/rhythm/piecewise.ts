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
      const squares = squaresOf(sums, from, to);
      if (squares === null) continue;
      const total = cost[from] + squares / noise ** 2 + price;
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

/** Running sums over the heard beats before each node: how many, of beat, time, and their products. */
interface Sums {
  readonly n: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  readonly yy: Float64Array;
}

function runningSums(heard: readonly HeardBeat[], nodes: number): Sums {
  const column = () => new Float64Array(nodes + 1);
  const sums: Sums = { n: column(), x: column(), y: column(), xx: column(), xy: column(), yy: column() };
  const all = Object.values(sums) as Float64Array[];
  let i = 0;
  for (let node = 1; node <= nodes; node++) {
    for (const s of all) s[node] = s[node - 1];
    while (i < heard.length && heard[i].beat < node * STRIDE) {
      const { beat, time } = heard[i++];
      sums.n[node]++;
      sums.x[node] += beat;
      sums.y[node] += time;
      sums.xx[node] += beat * beat;
      sums.xy[node] += beat * time;
      sums.yy[node] += time * time;
    }
  }
  return sums;
}

/** Sum of the squared residuals of the line through a stretch; null where there is none. */
function squaresOf(sums: Sums, from: number, to: number): number | null {
  const n = sums.n[to] - sums.n[from];
  if (n < LEAST) return null;
  const x = sums.x[to] - sums.x[from];
  const y = sums.y[to] - sums.y[from];
  const sxx = sums.xx[to] - sums.xx[from] - (x * x) / n;
  if (!(sxx > 0)) return null;
  const sxy = sums.xy[to] - sums.xy[from] - (x * y) / n;
  const syy = sums.yy[to] - sums.yy[from] - (y * y) / n;
  return Math.max(0, syy - sxy * (sxy / sxx));
}

function lineOf(sums: Sums, fromNode: number, toNode: number): Piece | null {
  const squares = squaresOf(sums, fromNode, toNode);
  if (squares === null) return null;
  const n = sums.n[toNode] - sums.n[fromNode];
  const x = sums.x[toNode] - sums.x[fromNode];
  const y = sums.y[toNode] - sums.y[fromNode];
  const sxx = sums.xx[toNode] - sums.xx[fromNode] - (x * x) / n;
  const period = (sums.xy[toNode] - sums.xy[fromNode] - (x * y) / n) / sxx;
  return {
    from: fromNode * STRIDE,
    to: toNode * STRIDE,
    offset: (y - period * x) / n,
    period,
    count: n,
    squares,
  };
}
