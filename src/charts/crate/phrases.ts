import { phraseRegularity, trackName, type TrackOutline } from '../../crate/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec } from '../spec.js';
import { COLOURS, CONFIG } from '../theme.js';
import { shortened } from './names.js';
import { labelOf } from '../labels.js';

/** Rows that still fit on a page. */
const MOST_ROWS = 80;

const KINDS = ['4 bars', '8 bars', '16 bars', '32 bars', 'other'] as const;
const FILLS = [COLOURS.faint, COLOURS.pale, COLOURS.middle, COLOURS.deep, COLOURS.accent];

/**
 * How the tracks of a crate phrase: the share of each track's bars that lie in phrases of each length.
 * @experimental
 */
export function cratePhraseChart(tracks: readonly TrackOutline[]): ChartSpec {
  const shown = tracks.toSorted((a, b) => phraseRegularity(b) - phraseRegularity(a)).slice(0, MOST_ROWS);
  const names = Object.fromEntries(shown.map((track, i) => [place(i), shortened(trackName(track))]));
  const values = shown.flatMap((track, i) => {
    const all = track.phrases.reduce((sum, p) => sum + p.bars, 0);
    return KINDS.map((kind, order) => {
      const bars = track.phrases.filter((p) => kindOf(p.bars) === kind).reduce((sum, p) => sum + p.bars, 0);
      return { place: place(i), kind, order, share: all > 0 ? bars / all : 0 };
    });
  });
  const more = tracks.length - shown.length;
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: `Share of the bars of ${shown.length} tracks by the length of the phrase they lie in.`,
    title: {
      text: 'Phrase habits',
      subtitle: `Share of each track’s bars by the length of their phrase${more > 0 ? `; ${more} more tracks not shown` : ''}`,
    },
    width: 480,
    height: { step: 18 },
    data: { values },
    mark: { type: 'bar', stroke: COLOURS.ink, strokeWidth: 0.5 },
    encoding: {
      y: {
        field: 'place',
        type: 'nominal',
        sort: 'ascending',
        axis: { title: null, labelExpr: labelOf(names), domain: false, ticks: false },
      },
      x: { field: 'share', type: 'quantitative', stack: 'zero', axis: { title: 'share of the bars', format: '%' } },
      color: {
        field: 'kind',
        type: 'nominal',
        scale: { domain: [...KINDS], range: FILLS },
        legend: { title: 'phrase of', orient: 'bottom', symbolStrokeColor: COLOURS.ink, labelLimit: 0 },
      },
      order: { field: 'order' },
    },
    config: CONFIG,
  };
}

function place(i: number): string {
  return `${i}`.padStart(3, '0');
}

function kindOf(bars: number): (typeof KINDS)[number] {
  return KINDS.find((kind) => kind === `${bars} bars`) ?? 'other';
}
