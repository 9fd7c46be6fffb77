import type { FrontEnd } from '../signal/index.js';
import type { Grid, GridIrregularity } from '../rhythm/index.js';
import type { Confidence, Layer } from '../units/index.js';
import type { LayerBars } from './form.js';
import { sigmoid, treeOdds, type Trees } from '../learned/index.js';
import type { StepTable } from './steps.js';
import { struckCues } from './struck-cues.js';

/** Shorter stretches without a pulse are a breath, not a passage. */
const LEAST_BARS = 8;
/** So long without drums is longer than any usual breakdown: then a tune that strikes now and then is no beat either. */
const LONG_BARS = 32;

/** A layer is out of a bar below this presence. */
const OUT = 0.5;
/** So many bars of a phrase may hold a drum or a bass: the fill that ends it, or the stroke that opens it. */
const LENIENT_BARS = 1;

/** Log-odds of one bar are cut here, so that no single bar decides for its phrase. */
const BAR_LIMIT = 2.5;

/**
 * From here down (mean log-odds of strokes) a phrase has no beat: a false alarm costs more than a miss. Of pieces in played styles
 * in other dress, five false passages in fifteen lie above it and seven in 110 that are right; of 142 arranged tracks of the first
 * set, none.
 */
const NO_BEAT = -0.7;

/**
 * A voice has consonants that the score takes for strokes: it counts so much less (log-odds) where one sings. Chosen on the same
 * arranged tracks, whose phrases without drums and bass it all but parts.
 */
const SUNG = 1.1;

/** A phrase beside a passage without a beat goes on with it up to these log-odds: what is held does not begin to strike by a hair. */
const GOES_ON = 0;

/** What drives a beat. Chords and tunes may as well, which the score is there to tell. */
const DRIVING: readonly Layer[] = ['kick', 'percussion', 'bass'];

type BeatlessPassage = Extract<GridIrregularity, { kind: 'beatless-passage' }>;

/** Says how likely the bars from `first` to before `last` (indices) are struck by chords or a tune, as mean log-odds. */
export type StruckJudge = (first: number, last: number) => number;

/** The judge of one track; what opens a passage (a crash that rings on) is left out where there are more bars. */
export function struckJudge(frontEnd: FrontEnd, grid: Grid, steps: StepTable, weights: Trees): StruckJudge {
  const odds = (bar: number, first: number, last: number) =>
    Math.max(-BAR_LIMIT, Math.min(BAR_LIMIT, treeOdds(weights, struckCues(frontEnd, grid, steps, bar, first, last))));
  return (first, last) => {
    const from = last - first > 1 ? first + 1 : first;
    let sum = 0;
    for (let b = from; b < last; b++) sum += odds(b, first, last);
    return sum / (last - from);
  };
}

/**
 * Passages without a beat: whole phrases in which no kick, percussion or bass plays and nothing else strikes the beats, and
 * passages that the grid found empty of strokes. One that lasts to the end of the track is its ending and not told.
 * @param phraseStarts indices of bars
 */
export function beatlessPassages(
  grid: Grid,
  layers: LayerBars,
  phraseStarts: readonly number[],
  struck: StruckJudge,
): BeatlessPassage[] {
  const { bars } = grid;
  const plays = (layer: Layer, b: number) => (layers[layer][b] ?? 1) >= OUT;
  const phrases = phraseStarts.map((first, i) => {
    const last = phraseStarts[i + 1] ?? bars.length;
    const mean = (layer: Layer) =>
      layers[layer].slice(first, last).reduce<number>((s, p) => s + (p ?? OUT), 0) / (last - first);
    const driven = DRIVING.some((l) => count(first, last, (b) => plays(l, b)) > LENIENT_BARS);
    return { first, last, odds: driven ? Infinity : struck(first, last) - (mean('voice') >= OUT ? SUNG : 0) };
  });
  const runs: { first: number; last: number; sure?: Confidence; odds?: number }[] = [];
  phrases.forEach(({ first, last, odds }, i) => {
    const beside = Math.min(phrases[i - 1]?.odds ?? Infinity, phrases[i + 1]?.odds ?? Infinity);
    if (odds >= (beside < NO_BEAT ? GOES_ON : NO_BEAT)) return;
    const before = runs.at(-1);
    if (before?.last === first) Object.assign(before, { last, odds: Math.min(before.odds!, odds) });
    else runs.push({ first, last, odds });
  });
  const told = runs.filter(({ first, last }) => last < bars.length && soundingBars(grid, first, last) >= LEAST_BARS);
  for (const found of grid.irregularities) {
    if (found.kind !== 'beatless-passage') continue;
    const first = bars.findIndex((b) => b.number === found.bar);
    let last = bars.findIndex((b) => b.number === found.endBar) + 1;
    // A voice's consonants are not drums.
    while (last < bars.length && !plays('kick', last) && !plays('percussion', last)) last++;
    const known = told.some((r) => r.first < last && first < r.last);
    const held = struck(first, last) < 0 || last - first >= LONG_BARS;
    if (!known && last < bars.length && held) told.push({ first, last, sure: found.confidence });
  }
  return told.map(({ first, last, sure, odds: plainest }): BeatlessPassage => {
    const from = bars[first].number < 1 ? first + 1 : first;
    const odds = struck(first, last);
    return {
      kind: 'beatless-passage',
      bar: bars[from].number,
      time: bars[from].start,
      endBar: bars[last - 1].number,
      confidence: sure ?? sigmoid(-Math.min(odds, plainest ?? odds)),
      evidence: { bars: last - from, struckShare: Math.round(sigmoid(odds) * 100) / 100 },
    };
  });
}

/** Bars of a passage; what sounds before bar 1 is none. */
function soundingBars({ bars }: Grid, first: number, last: number): number {
  return last - first - (bars[first].number < 1 ? 1 : 0);
}

function count(from: number, to: number, is: (b: number) => boolean): number {
  let n = 0;
  for (let b = from; b < to; b++) if (is(b)) n++;
  return n;
}
