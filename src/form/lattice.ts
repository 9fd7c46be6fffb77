import { BARS_IN_GROUP } from '../units/index.js';
import type { ChordReturns } from './chord-returns.js';
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
  readonly noSectionStart?: ReadonlySet<number>;
}

export const FREE: BarConstraints = { phraseStart: new Set(), noPhraseStart: new Set(), sectionStart: new Set() };

/** States a bar: distances to the section's start, 0 for "a section starts here". */
export const WIDTH = LONGEST_SECTION + 1;

/** However well the chords speak for a phrase off the groups, it costs this much (nats). */
const LEAST_PRICE = 0.3;

/** Offsets beyond the longest remembered section fold back by 32 bars, which keeps every remainder that costs look at. */
export const ADVANCE = Int32Array.from({ length: 2 * WIDTH }, (_, o) =>
  o > LONGEST_SECTION ? LONGEST_SECTION - 31 + ((o - LONGEST_SECTION - 1) % 32) : o,
);

/** Everything that the passes over one track share; costs are looked up, not computed. */
export interface Lattice {
  readonly bars: number;
  readonly reach: Int32Array;
  /** Scores of a phrase of l bars inside the track, and at its ends. */
  readonly phrase: Float64Array;
  readonly phraseAtEdge: Float64Array;
  readonly section: Float64Array;
  readonly sectionAtEdge: Float64Array;
  /** Score of a phrase start and of a section start at each bar; −∞ where a person's word forbids it. */
  readonly stay: Float64Array;
  readonly close: Float64Array;
  /** What the chords give to a phrase off the groups of l bars from bar b inside the track, at `b * perBar + l`. */
  readonly chords: Float64Array;
  readonly perBar: number;
}

/** Looks up every cost once and turns a person's word into scores that forbid. */
export function createLattice(
  bars: number,
  scores: BoundaryScores,
  costs: LengthCosts,
  usual: number,
  constraints: BarConstraints,
  returns: ChordReturns = () => 0,
): Lattice {
  const longest = longestPhrase(usual);
  const reach = reachOf(bars, longest, constraints);
  const most = Math.max(longest, ...reach);
  const lengths = Array.from({ length: most + 1 }, (_, l) => l);
  const offsets = Array.from({ length: WIDTH }, (_, o) => o);
  const stay = new Float64Array(bars + 1).fill(-Infinity);
  const close = new Float64Array(bars + 1).fill(-Infinity);
  for (let b = 1; b < bars; b++) {
    if (constraints.noPhraseStart.has(b)) continue;
    if (!constraints.sectionStart.has(b)) stay[b] = scores.phrase[b];
    if (!constraints.noSectionStart?.has(b)) close[b] = scores.phrase[b] + scores.section[b];
  }
  close[bars] = 0;
  const perBar = most + 1;
  const chords = new Float64Array(bars * perBar);
  for (let b = 1; b < bars; b++)
    for (let l = 1; l <= reach[b] && b + l < bars; l++)
      if (l % BARS_IN_GROUP !== 0)
        chords[b * perBar + l] = Math.min(returns(b + l, l), phraseCost(costs, usual, l, false) - LEAST_PRICE);
  return {
    bars,
    reach,
    phrase: Float64Array.from(lengths, (l) => -phraseCost(costs, usual, l, false)),
    phraseAtEdge: Float64Array.from(lengths, (l) => -phraseCost(costs, usual, l, true)),
    section: Float64Array.from(offsets, (o) => -sectionCost(costs, o, false)),
    sectionAtEdge: Float64Array.from(offsets, (o) => -sectionCost(costs, o, true)),
    stay,
    close,
    chords,
    perBar,
  };
}

/** Score of a phrase of l bars from bar b. */
export function phraseScore({ bars, phrase, phraseAtEdge, chords, perBar }: Lattice, b: number, l: number): number {
  return b === 0 || b + l === bars ? phraseAtEdge[l] : phrase[l] + chords[b * perBar + l];
}

/** The best path's back-pointers, and the best score at each bar, which keeps the sums below in range. */
export function viterbi(lattice: Lattice): { back: Int32Array; potential: Float64Array } {
  const { bars, reach, stay, close, section, sectionAtEdge } = lattice;
  const best = new Float64Array((bars + 1) * WIDTH).fill(-Infinity);
  const back = new Int32Array(best.length).fill(-1);
  const potential = new Float64Array(bars + 1).fill(-Infinity);
  best[0] = 0;
  for (let b = 0; b <= bars; b++) {
    for (let o = 0; o < WIDTH; o++) potential[b] = Math.max(potential[b], best[b * WIDTH + o]);
    if (b === bars || potential[b] === -Infinity) continue;
    for (let l = 1; l <= reach[b]; l++) {
      const to = b + l;
      const p = phraseScore(lattice, b, l);
      for (let o = 0; o < WIDTH; o++) {
        const from = best[b * WIDTH + o] + p;
        if (from === -Infinity) continue;
        const o2 = ADVANCE[o + Math.min(l, WIDTH - 1)];
        const staying = from + stay[to];
        if (staying > best[to * WIDTH + o2]) {
          best[to * WIDTH + o2] = staying;
          back[to * WIDTH + o2] = b * WIDTH + o;
        }
        const closing = from + close[to] + (to === bars || o2 === to ? sectionAtEdge[o2] : section[o2]);
        if (closing > best[to * WIDTH]) {
          best[to * WIDTH] = closing;
          back[to * WIDTH] = b * WIDTH + o;
        }
      }
    }
  }
  return { back, potential };
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

/** Starts along the best path. */
export function trace(back: Int32Array, bars: number): { phraseStarts: number[]; sectionStarts: number[] } {
  const phraseStarts: number[] = [];
  const sectionStarts: number[] = [];
  for (let at = back[bars * WIDTH]; at >= 0; at = back[at]) {
    const bar = Math.floor(at / WIDTH);
    phraseStarts.push(bar);
    if (at % WIDTH === 0) sectionStarts.push(bar);
  }
  return { phraseStarts: phraseStarts.reverse(), sectionStarts: sectionStarts.reverse() };
}
