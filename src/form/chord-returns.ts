import { BARS_IN_GROUP } from '../units/index.js';
import type { BandedSimilarity } from './similarity.js';

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

/** Nats that the chords give to a phrase of `bars` bars, by the bar before which it ends; `null` where they give none. */
export type ChordReturns = (bars: number) => Float64Array | null;

/**
 * What the chords say of a phrase with bars too many or too few: behind it they come back after so many bars more or fewer than
 * 8 and 16. As `withOddSections` does for whole sections, and the grid for beats (its slip evidence). Of 22 surpluses of one to
 * three bars in arranged tracks the chords are for the right phrase in 13, for another one in 3, and say nothing of the rest.
 * @param alike likeness of the chords of bars up to CHORD_REACH apart
 * @param usual bars of the usual phrase
 */
export function chordReturns(alike: BandedSimilarity, usual: number): ChordReturns {
  const unit = usual === BARS_IN_GROUP ? BARS_IN_GROUP : 2 * BARS_IN_GROUP;
  const known = new Map<number, Float64Array>();
  return (bars) => {
    const surplus = bars - Math.max(Math.round(bars / unit), 1) * unit;
    if (surplus === 0 || Math.abs(surplus) > MOST_BARS) return null;
    const nats = known.get(surplus) ?? natsOf(alike, surplus);
    known.set(surplus, nats);
    return nats;
  };
}

/** At each bar, what is won over the bars from there on by looking back `surplus` bars further than usual. */
function natsOf(alike: BandedSimilarity, surplus: number): Float64Array {
  const nats = new Float64Array(alike.bars + 1);
  for (const lag of LAGS) addGain(alike, surplus, lag, nats);
  for (let end = 0; end < nats.length; end++) nats[end] = Math.max(NATS * nats[end], LEAST_NATS);
  return nats;
}

function addGain(alike: BandedSimilarity, surplus: number, lag: number, gains: Float64Array): void {
  const { bars, reach, values } = alike;
  for (let end = 0; end < gains.length; end++) {
    const last = Math.min(bars, end + BARS_AHEAD);
    let sum = gains[end];
    for (let b = Math.max(end, lag, lag + surplus); b < last; b++) {
      // Of bars b − lag and b as `similarityAt` has it.
      const usual = (b - lag) * (reach + 1) + lag;
      sum += values[usual - surplus * reach] - values[usual];
    }
    gains[end] = sum;
  }
}
