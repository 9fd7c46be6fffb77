import type { BarPath } from './bar-jumps.js';
import { joinSingles } from './bars.js';
import { modulo } from './modulo.js';
import { placeOddBars } from './place-odd-bars.js';
import type { SlipEvidence } from './slips.js';

/** Nats for an odd bar, and for a unit of slip evidence, which never makes it cheaper than LEAST_PRICE. */
const JUMP = 14;
const SLIP = 1.1;
const LEAST_PRICE = 1;
/** An odd bar is as sure as a third of what it wins (nats). */
const SURE = 3;

/**
 * The likeliest bars under a person's word that no regular count meets: Viterbi over the place of each beat in its bar, in
 * which moving on by one is free and an odd bar has its price (methods, stages 4 and 5; the state space of Krebs, Böck &
 * Widmer, "An efficient state-space model for joint tempo and meter tracking", ISMIR 2015, reduced to whole beats).
 * @param evidence in nats for a bar starting on each beat
 * @param fixed beats on which a bar must start
 */
export function toldPath(evidence: Float64Array, m: number, fixed: readonly number[], slip: SlipEvidence): BarPath {
  const n = evidence.length;
  const must = new Set(fixed);
  let score = new Float64Array(m);
  const back = new Int8Array(n * m);
  const mean = evidence.reduce((a, b) => a + b, 0) / Math.max(n, 1);
  for (let b = 0; b < n; b++) {
    const next = new Float64Array(m);
    for (let p = 0; p < m; p++) {
      back[b * m + p] = (p + m - 1) % m;
      next[p] = b === 0 ? 0 : score[back[b * m + p]];
    }
    // A bar may end early or late only where the next one starts.
    for (let last = 0; b > 0 && last < m - 1; last++) {
      const leap = score[last] - price(slip, b, last + 1, m);
      if (leap <= next[0]) continue;
      next[0] = leap;
      back[b * m] = last;
    }
    next[0] += evidence[b] - mean + (must.has(b) ? 1e6 : 0);
    score = next;
  }
  let p = score.indexOf(Math.max(...score));
  const places = new Int8Array(n);
  for (let b = n - 1; b >= 0; b--) {
    places[b] = p;
    p = back[b * m + p];
  }
  const starts: number[] = [];
  for (let b = 0; b < n; b++) if (places[b] === 0) starts.push(b);
  const joined = joinSurplus(joinSingles(starts, evidence), m, evidence, slip);
  const whole = placeOddBars(joined, m, (beat) => evidence[beat] ?? 0, slip, must);
  return { starts: whole, jumps: jumpsOf(whole, evidence, m, slip) };
}

/** What an odd bar of `beats` beats before beat b costs. */
function price(slip: SlipEvidence, b: number, beats: number, m: number): number {
  return Math.max(LEAST_PRICE, JUMP - SLIP * slipOf(slip, b, beats, m));
}

/** A bar of one beat is one too many in the bar before; one of half a bar may be a bar that is half as long again. */
function slipOf(slip: SlipEvidence, b: number, beats: number, m: number): number {
  if (beats > m) return slip(b, m - beats);
  if (beats === 1) return slip(b, -1);
  return 2 * beats === m ? Math.max(slip(b, beats), slip(b, -beats)) : slip(b, m - beats);
}

/**
 * Joins half a bar to a neighbour where the music says that beats were added rather than dropped: of the starts of the half bar and
 * of the bar after it the likelier one stays.
 */
function joinSurplus(
  starts: readonly number[],
  m: number,
  evidence: ArrayLike<number>,
  slip: SlipEvidence,
): readonly number[] {
  const gone = new Set<number>();
  starts.forEach((s, i) => {
    const next = starts[i + 1];
    const half = i > 0 && next !== undefined && 2 * (next - s) === m && s - starts[i - 1] === m && !gone.has(s);
    if (!half || slip(next, m / 2) >= slip(next, -m / 2)) return;
    const whole = starts[i + 2] !== undefined && starts[i + 2] - next === m;
    gone.add(whole && evidence[s] > evidence[next] ? next : s);
  });
  return starts.filter((s) => !gone.has(s));
}

function jumpsOf(starts: readonly number[], evidence: Float64Array, m: number, slip: SlipEvidence): BarPath['jumps'] {
  return starts.flatMap((beat, i) => {
    const beats = beat - starts[i - 1];
    if (i === 0 || beats === m) return [];
    // What the bars up to the next odd one hold, against going on as before.
    let gain = -price(slip, beat, beats, m);
    for (let j = i; j < starts.length && (j === i || starts[j] - starts[j - 1] === m); j++) {
      const unbroken = starts[j] + modulo(m - beats, m);
      gain += evidence[starts[j]] - (evidence[unbroken] ?? 0);
    }
    return [{ beat, gain: gain / SURE }];
  });
}
