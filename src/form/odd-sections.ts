import { BARS_IN_GROUP } from '../units/index.js';
import type { Reading } from './decode.js';
import type { BarConstraints, BoundaryScores } from './lattice.js';
import { longestPhrase, phraseCost, type LengthCosts } from './lengths.js';
import { sigmoid } from '../learned/index.js';
import { bandedSimilarity, similarityAt, type BandedSimilarity } from './similarity.js';
import type { BarVectors } from './bars.js';

/** What every further phrase of the same odd length costs, in nats: the first one is the surprise. */
const AGAIN = 1;
/** Cues of starts expect changes every four and eight bars, so what they say against another start counts no more than this. */
const LEAST_SCORE = -2;
/** Chords come back after these numbers of bars in a section that counts as usual. */
const USUAL_LAGS = [4, 8, 16] as const;
/** Nats for every bar whose chords come back better after the odd length, per unit of likeness. */
const RETURN = 2.5;
/** A shorter phrase is a fill. */
const LEAST_BARS = 3;

/**
 * Reads sections anew that count in phrases of one odd length throughout (7 + 7 + 7 bars instead of 8 + 8 + 5): the model of
 * phrases pays for each odd phrase as if it were the only one, and its cues expect changes every four and eight bars. What
 * tells is that the chords come back after the odd length and not after a usual one. The ends of sections stay where they
 * are; a person's word inside holds.
 * @param whole whether a bar has the usual number of beats
 */
export function withOddSections(
  reading: Reading,
  bars: number,
  { phrase }: BoundaryScores,
  costs: LengthCosts,
  { phraseStart, noPhraseStart }: BarConstraints,
  chroma: BarVectors,
  whole: (bar: number) => boolean = () => true,
): Reading {
  const { phraseStarts, sectionStarts, usual } = reading;
  const starts = [...phraseStarts];
  const phrasePosterior = reading.phrasePosterior.slice();
  const alike = bandedSimilarity(chroma, reading.phrasePosterior.length, Math.min(longestPhrase(usual), bars));
  const sure = new Map<number, { bars: number; share: number }>();
  const cost = (length: number) => phraseCost(costs, usual, length, false);
  const sum = (of: readonly number[], least = -Infinity) => of.reduce((s, b) => s + Math.max(phrase[b], least), 0);
  sectionStarts.forEach((from, i) => {
    const to = sectionStarts[i + 1];
    // What the track begins and ends with may be cut off.
    if (i === 0 || to === undefined || to >= bars) return;
    // Where the grid itself stumbles, its bars prove nothing.
    for (let b = from; b < to; b++) if (!whole(b)) return;
    const inside = phraseStarts.filter((b) => b > from && b < to);
    const edges = [from, ...inside, to];
    const now = sum(inside) - edges.slice(1).reduce((s, b, k) => s + cost(b - edges[k]), 0);
    const told = [...phraseStart].filter((b) => b > from && b < to);
    let best: { value: number; length: number; inner: number[] } | null = null;
    for (let count = 2; count * LEAST_BARS <= to - from; count++) {
      const length = (to - from) / count;
      if (!Number.isInteger(length) || length % BARS_IN_GROUP === 0 || length > longestPhrase(usual)) continue;
      const inner = Array.from({ length: count - 1 }, (_, k) => from + (k + 1) * length);
      if (told.some((b) => !inner.includes(b)) || inner.some((b) => noPhraseStart.has(b))) continue;
      const back = returns(alike, from, to, length);
      const usually = Math.max(...USUAL_LAGS.map((lag) => (lag < to - from ? returns(alike, from, to, lag) : 0)));
      if (back <= usually) continue;
      const value =
        sum(inner, LEAST_SCORE) - cost(length) - AGAIN * (count - 1) + RETURN * (back - usually) * (to - from - length);
      if (value > (best?.value ?? now)) best = { value, length, inner };
    }
    if (best === null || best.inner.join() === inside.join()) return;
    const share = sigmoid(best.value - now) * Math.min(reading.phrasePosterior[from], reading.phrasePosterior[to]);
    starts.splice(starts.indexOf(from) + 1, inside.length, ...best.inner);
    for (const b of inside) phrasePosterior[b] *= 1 - share;
    for (const b of best.inner) phrasePosterior[b] = Math.max(phrasePosterior[b], share);
    for (const b of [from, ...best.inner]) sure.set(b, { bars: best.length, share });
  });
  if (sure.size === 0) return reading;
  return {
    ...reading,
    phraseStarts: starts,
    phrasePosterior,
    posteriorOf(start, length) {
      const odd = sure.get(start);
      if (odd === undefined) return reading.posteriorOf(start, length);
      return odd.bars === length ? odd.share : reading.posteriorOf(start, length) * (1 - odd.share);
    },
  };
}

/** Mean likeness of the chords of bars so far apart in a section; its first bar is left out, as what came before may ring on. */
function returns(alike: BandedSimilarity, from: number, to: number, lag: number): number {
  let sum = 0;
  let pairs = 0;
  for (let b = from + 1; b + lag < to; b++, pairs++) sum += similarityAt(alike, b, b + lag);
  return pairs > 0 ? sum / pairs : 0;
}
