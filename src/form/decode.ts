import type { Fraction } from '../units/index.js';
import { LONGEST_SECTION, longestPhrase, phraseCost, sectionCost, type LengthCosts } from './lengths.js';

/** What the model weighs: one value a bar, in nats, for "a phrase starts here" and "a section starts here too". */
export interface BoundaryScores {
  readonly phrase: Float64Array;
  readonly section: Float64Array;
}

/** A person's word on single bars. */
export interface BarConstraints {
  readonly phraseStart: ReadonlySet<number>;
  readonly noPhraseStart: ReadonlySet<number>;
  readonly sectionStart: ReadonlySet<number>;
}

export const FREE: BarConstraints = { phraseStart: new Set(), noPhraseStart: new Set(), sectionStart: new Set() };

/** One reading of the whole track: phrases that tile sections that tile the bars, as indices of bars. */
export interface Reading {
  readonly usual: number;
  readonly phraseStarts: readonly number[];
  readonly sectionStarts: readonly number[];
  /** Log of the summed weight of every reading with this usual length. */
  readonly evidence: number;
  /** Probability that a phrase (a section) starts at each bar. */
  readonly phrasePosterior: Float64Array;
  readonly sectionPosterior: Float64Array;
  /** Probability of the phrase of `bars` bars from `start`. */
  posteriorOf(start: number, bars: number): Fraction;
}

const WIDTH = LONGEST_SECTION + 1;

/** Offsets beyond the longest remembered section fold back by 32 bars, which keeps every remainder that costs look at. */
function advance(offset: number, bars: number): number {
  const next = offset + bars;
  return next > LONGEST_SECTION ? next - 32 : next;
}

/**
 * Semi-Markov decoding of phrases inside sections: a state is a bar and the distance to its section's start; a step is a
 * whole phrase that may close the section. Viterbi for the reading, forward–backward in the same costs for how sure it is.
 * @param bars number of bars, at least 1
 */
export function decode(
  bars: number,
  scores: BoundaryScores,
  costs: LengthCosts,
  usual: number,
  constraints: BarConstraints = FREE,
): Reading {
  const longest = longestPhrase(usual);
  const size = (bars + 1) * WIDTH;
  const best = new Float64Array(size).fill(-Infinity);
  const back = new Int32Array(size).fill(-1);
  const forward = new Float64Array(size).fill(-Infinity);
  const backward = new Float64Array(size).fill(-Infinity);
  best[0] = forward[0] = 0;
  backward[bars * WIDTH] = 0;
  const reach = reachOf(bars, longest, constraints);
  const phraseAt = (b: number, l: number) => -phraseCost(costs, usual, l, b === 0 || b + l === bars);
  const closeAt = (b: number, offset: number) =>
    (b < bars ? scores.phrase[b] + scores.section[b] : 0) - sectionCost(costs, offset, b === bars || offset === b);
  const mayStay = (b: number) => b < bars && !constraints.sectionStart.has(b);
  const mayStart = (b: number) => b === bars || !constraints.noPhraseStart.has(b);

  for (let b = 0; b < bars; b++)
    for (let o = 0; o < WIDTH; o++) {
      const at = b * WIDTH + o;
      if (forward[at] === -Infinity) continue;
      for (let l = 1; l <= reach[b]; l++) {
        const to = b + l;
        if (!mayStart(to)) continue;
        const o2 = advance(o, l);
        const phrase = phraseAt(b, l);
        const step = (target: number, score: number) => {
          forward[target] = logSum(forward[target], forward[at] + score);
          if (best[at] + score > best[target]) {
            best[target] = best[at] + score;
            back[target] = at;
          }
        };
        if (mayStay(to)) step(to * WIDTH + o2, phrase + scores.phrase[to]);
        step(to * WIDTH, phrase + closeAt(to, o2));
      }
    }
  for (let b = bars - 1; b >= 0; b--)
    for (let o = 0; o < WIDTH; o++) {
      const at = b * WIDTH + o;
      if (forward[at] === -Infinity) continue;
      for (let l = 1; l <= reach[b]; l++) {
        const to = b + l;
        if (!mayStart(to)) continue;
        backward[at] = logSum(backward[at], tail(b, o, l));
      }
    }

  /** Weight of everything from bar b on, given that the next phrase has l bars. */
  function tail(b: number, o: number, l: number): number {
    const to = b + l;
    const o2 = advance(o, l);
    const close = closeAt(to, o2) + backward[to * WIDTH];
    const stay = mayStay(to) ? scores.phrase[to] + backward[to * WIDTH + o2] : -Infinity;
    return phraseAt(b, l) + logSum(close, stay);
  }

  const evidence = forward[bars * WIDTH];
  const { phraseStarts, sectionStarts } = trace(back, bars);
  const phrasePosterior = new Float64Array(bars);
  const sectionPosterior = new Float64Array(bars);
  for (let b = 0; b < bars; b++) {
    for (let o = 0; o < WIDTH; o++) {
      const p = Math.exp(forward[b * WIDTH + o] + backward[b * WIDTH + o] - evidence);
      phrasePosterior[b] += p;
      if (o === 0) sectionPosterior[b] = p;
    }
    phrasePosterior[b] = Math.min(phrasePosterior[b], 1);
  }
  return {
    usual,
    phraseStarts,
    sectionStarts,
    evidence,
    phrasePosterior,
    sectionPosterior,
    posteriorOf(start, length) {
      let p = 0;
      if (length > reach[start] || !mayStart(start + length)) return 0;
      for (let o = 0; o < WIDTH; o++) {
        const f = forward[start * WIDTH + o];
        if (f > -Infinity) p += Math.exp(f + tail(start, o, length) - evidence);
      }
      return Math.min(p, 1);
    },
  };
}

/**
 * How far a phrase from each bar may run: to the longest phrase, the end, or a start that a person has set; further where
 * a person has forbidden every start before.
 */
function reachOf(bars: number, longest: number, constraints: BarConstraints): Int32Array {
  const { phraseStart, noPhraseStart, sectionStart } = constraints;
  const reach = new Int32Array(bars);
  let wall = bars;
  let nextFree = bars;
  for (let b = bars - 1; b >= 0; b--) {
    reach[b] = Math.min(Math.max(longest, nextFree - b), wall - b);
    if (phraseStart.has(b) || sectionStart.has(b)) wall = b;
    if (!noPhraseStart.has(b)) nextFree = b;
  }
  return reach;
}

function trace(back: Int32Array, bars: number): { phraseStarts: number[]; sectionStarts: number[] } {
  const phraseStarts: number[] = [];
  const sectionStarts: number[] = [];
  for (let at = back[bars * WIDTH]; at >= 0; at = back[at]) {
    const bar = Math.floor(at / WIDTH);
    phraseStarts.push(bar);
    if (at % WIDTH === 0) sectionStarts.push(bar);
  }
  return { phraseStarts: phraseStarts.reverse(), sectionStarts: sectionStarts.reverse() };
}

function logSum(a: number, b: number): number {
  if (a === -Infinity) return b;
  if (b === -Infinity) return a;
  return a > b ? a + Math.log1p(Math.exp(b - a)) : b + Math.log1p(Math.exp(a - b));
}
