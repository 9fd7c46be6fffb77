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
  readonly section: Float64Array;
  readonly sectionAtEdge: Float64Array;
  /** Score of a phrase start and of a section start at each bar; −∞ where a person's word forbids it. */
  readonly stay: Float64Array;
  readonly close: Float64Array;
  /** Score of a phrase of l bars from bar b, with what the chords give to one off the groups, at `b * perBar + l`. */
  readonly phrases: Float64Array;
  readonly perBar: number;
}

/** Looks up every cost once and turns a person's word into scores that forbid. */
export function createLattice(
  bars: number,
  scores: BoundaryScores,
  costs: LengthCosts,
  usual: number,
  constraints: BarConstraints,
  returns: ChordReturns = () => null,
): Lattice {
  const reach = reachOf(bars, longestPhrase(usual), constraints);
  const perBar = Math.max(longestPhrase(usual), ...reach) + 1;
  const { stay, close } = startScores(bars, scores, constraints);
  const offsets = new Float64Array(WIDTH);
  return {
    bars,
    reach,
    section: offsets.map((_, o) => -sectionCost(costs, o, false)),
    sectionAtEdge: offsets.map((_, o) => -sectionCost(costs, o, true)),
    stay,
    close,
    phrases: phraseScores(bars, reach, perBar, (l, atEdge) => phraseCost(costs, usual, l, atEdge), returns),
    perBar,
  };
}

function startScores(bars: number, scores: BoundaryScores, constraints: BarConstraints) {
  const stay = new Float64Array(bars + 1).fill(-Infinity);
  const close = new Float64Array(bars + 1).fill(-Infinity);
  for (let b = 1; b < bars; b++) {
    if (constraints.noPhraseStart.has(b)) continue;
    if (!constraints.sectionStart.has(b)) stay[b] = scores.phrase[b];
    if (!constraints.noSectionStart?.has(b)) close[b] = scores.phrase[b] + scores.section[b];
  }
  close[bars] = 0;
  return { stay, close };
}

/** Scores of all phrases; to one off the groups the chords give no more than `LEAST_PRICE` less than it costs. */
function phraseScores(
  bars: number,
  reach: Int32Array,
  perBar: number,
  costOf: (bars: number, atEdge: boolean) => number,
  returns: ChordReturns,
): Float64Array {
  const scores = new Float64Array(bars * perBar);
  for (let l = 1; l < perBar; l++) {
    const cost = costOf(l, false);
    const chords = l % BARS_IN_GROUP === 0 ? null : returns(l);
    setPhrases(scores, l, perBar, reach, -cost, chords, cost - LEAST_PRICE);
    // The first phrase of a track and the last.
    const atEdge = -costOf(l, true);
    scores[l] = atEdge;
    if (l < bars) scores[(bars - l) * perBar + l] = atEdge;
  }
  return scores;
}

/** Sets the scores of the phrases of l bars: what they cost, and what the chords give to each, up to a limit. */
function setPhrases(
  scores: Float64Array,
  l: number,
  perBar: number,
  reach: Int32Array,
  usual: number,
  chords: Float64Array | null,
  limit: number,
): void {
  for (let b = 0; b < reach.length; b++) {
    if (l > reach[b]) continue;
    scores[b * perBar + l] = usual + (chords ? Math.min(chords[b + l], limit) : 0);
  }
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
export function trace(back: ArrayLike<number>, bars: number): { phraseStarts: number[]; sectionStarts: number[] } {
  const phraseStarts: number[] = [];
  const sectionStarts: number[] = [];
  for (let at = back[bars * WIDTH]; at >= 0; at = back[at]) {
    const bar = Math.floor(at / WIDTH);
    phraseStarts.push(bar);
    if (at % WIDTH === 0) sectionStarts.push(bar);
  }
  return { phraseStarts: phraseStarts.reverse(), sectionStarts: sectionStarts.reverse() };
}
