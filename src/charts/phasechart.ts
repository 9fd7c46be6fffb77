import type { TrackCurves } from './curves.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, CONFIG } from './theme.js';
import { labelOf } from './labels.js';

/** Where between two beats sounds begin: a grid that lies well has its tallest bar on the beat. @experimental */
export function beatPhaseChart(curves: TrackCurves): ChartSpec {
  const { bins, low, all } = curves.phase;
  const labels = { 0: 'beat', 0.25: '¼', 0.5: '½', 0.75: '¾' };
  const data = table({ position: low.map((_, bin) => bin / bins), low, all });
  const bar = (field: string, width: number, colour: string): SpecPart => ({
    mark: { type: 'bar', width, color: colour },
    encoding: {
      y: {
        field,
        type: 'quantitative',
        axis: { format: '%', title: 'share of the onsets', tickCount: 4, minExtent: 0 },
      },
    },
  });
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: 'Histogram of where between two beats sounds begin.',
    title: { text: 'Where sounds begin', subtitle: 'Pale and wide: all sounds. Dark and narrow: below 150 Hz.' },
    width: 420,
    height: 150,
    data,
    encoding: {
      x: {
        field: 'position',
        type: 'quantitative',
        scale: { domain: [-0.03, 1], nice: false },
        axis: {
          title: 'between one beat and the next',
          values: Object.keys(labels).map(Number).sort(),
          labelExpr: labelOf(labels),
          labelFlush: false,
        },
      },
    },
    layer: [bar('all', 13, COLOURS.pale), bar('low', 6, COLOURS.deep)],
    config: CONFIG,
  };
}
