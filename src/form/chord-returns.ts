import { BARS_IN_GROUP } from '../units/index.js';
import { similarityAt, type BandedSimilarity } from './similarity.js';

/** In music that goes on as usual, chords come back after these numbers of bars. */
const LAGS = [8, 16] as const;
/** Bars behind a phrase whose chords are looked at. */
const BARS_AHEAD = 8;
/** Bars too many or too few that are looked for: four may be one more turn of the chords. */
const MOST_BARS = 3;
/** Nats for every bar whose chords come back better with the surplus, per unit of likeness; and what it may cost at most. */
const NATS = 1.5;
const LEAST_NATS = -2;

/** How far apart bars are compared. */
export const CHORD_REACH = LAGS[1] + MOST_BARS;

/** Nats that the chords give to a phrase of `bars` bars that ends before bar `end` (an index). */
export type ChordReturns = (end: number, bars: number) => number;

/**
 * What the chords say of a phrase with bars too many or too few: behind it they come back after so many bars more or fewer than
 * 8 and 16. As `withOddSections` does for whole sections, and the grid for beats (its slip evidence). Of 22 surpluses of one to
 * three bars in arranged tracks the chords are for the right phrase in 13, for another one in 3, and say nothing of the rest.
 * @param alike likeness of the chords of bars up to CHORD_REACH apart
 * @param usual bars of the usual phrase
 */
export function chordReturns(alike: BandedSimilarity, usual: number): ChordReturns {
  const unit = usual === BARS_IN_GROUP ? BARS_IN_GROUP : 2 * BARS_IN_GROUP;
  const perBar = 2 * MOST_BARS + 1;
  const known = new Float64Array((alike.bars + 1) * perBar).fill(NaN);
  return (end, bars) => {
    const surplus = bars - Math.max(Math.round(bars / unit), 1) * unit;
    if (surplus === 0 || Math.abs(surplus) > MOST_BARS) return 0;
    const at = end * perBar + surplus + MOST_BARS;
    if (Number.isNaN(known[at])) known[at] = Math.max(NATS * gain(alike, end, surplus), LEAST_NATS);
    return known[at];
  };
}

/** Likeness won over the bars from `end` on by looking back `surplus` bars further than usual. */
function gain(alike: BandedSimilarity, end: number, surplus: number): number {
  return gainAt(alike, end, surplus, LAGS[1], gainAt(alike, end, surplus, LAGS[0], 0));
}

/** The same for one lag, added to a sum. */
function gainAt(alike: BandedSimilarity, end: number, surplus: number, lag: number, sum: number): number {
  const last = Math.min(alike.bars, end + BARS_AHEAD);
  for (let b = Math.max(end, lag, lag + surplus); b < last; b++)
    sum += similarityAt(alike, b - lag - surplus, b) - similarityAt(alike, b - lag, b);
  return sum;
}
