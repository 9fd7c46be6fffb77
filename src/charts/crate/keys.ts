import type { TrackOutline } from '../../crate/index.js';
import { keyAt, MODES, PITCH_CLASSES } from '../../units/index.js';
import { keyName } from '../../wording/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec } from '../spec.js';
import { COLOURS, CONFIG } from '../theme.js';

/**
 * The keys of a crate in the order of the circle of fifths: neighbours, and the two keys of one row, share most of their
 * notes.
 * @experimental
 */
export function crateKeyChart(tracks: readonly TrackOutline[]): ChartSpec {
  const known = tracks.filter(({ key }) => key.tonic !== null && key.mode !== null);
  const values = PITCH_CLASSES.flatMap((_, place) =>
    MODES.map((mode) => {
      const { tonic } = keyAt(place, mode);
      const count = known.filter(({ key }) => key.tonic === tonic && key.mode === mode).length;
      return { place, mode, count, row: rowName(place) };
    }),
  );
  const rows = PITCH_CLASSES.map((_, place) => rowName(place));
  const none = tracks.length - known.length;
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: `How many of ${tracks.length} tracks are in which key.`,
    title: {
      text: 'Keys round the circle of fifths',
      subtitle: `Dark: minor. Pale: major.${none > 0 ? ` Without a clear key: ${none}.` : ''}`,
    },
    width: 420,
    height: { step: 18 },
    data: { values },
    mark: { type: 'bar', stroke: COLOURS.ink, strokeWidth: 0.5 },
    encoding: {
      y: { field: 'row', type: 'nominal', sort: rows, axis: { title: null, ticks: false } },
      x: {
        field: 'count',
        type: 'quantitative',
        axis: { title: 'tracks', tickMinStep: 1, format: 'd', grid: true, gridColor: COLOURS.faint },
      },
      color: {
        field: 'mode',
        type: 'nominal',
        scale: { domain: ['minor', 'major'], range: [COLOURS.deep, COLOURS.pale] },
        legend: null,
      },
      order: { field: 'mode', sort: 'descending' },
    },
    config: CONFIG,
  };
}

function rowName(place: number): string {
  return MODES.map((mode) => keyName(keyAt(place, mode).tonic, mode)).join(' / ');
}
