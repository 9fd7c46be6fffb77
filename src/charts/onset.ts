import { ONSET_BANDS } from '../rhythm/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { Hertz } from '../units/index.js';
import type { TrackCurves } from './curves.js';
import { quantile, reduceMaximum } from './reduce.js';
import { rowArea, rowAxis } from './rows.js';
import type { ChartSpec } from './spec.js';
import { table } from './table.js';
import { COLOURS } from './theme.js';
import { frameOf, pointsIn, timeChart, type ChartOptions } from './timechart.js';

/** Onsets stronger than this share of the seen ones reach the top of their row. */
const TOP_SHARE = 0.995;

/** How suddenly the sound rises, in four bands under each other: high on top, low at the bottom. @public */
export function onsetChart(curves: TrackCurves, analysis: TrackAnalysis, options: ChartOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const bands = ONSET_BANDS.map((band, c) => ({ band, ...reduceMaximum(curves.onsets, c, frame, pointsIn(frame)) }));
  const columns = bands.map(({ values }) => {
    const top = quantile(values, TOP_SHARE) || 1;
    return values.map((v) => Math.min(1, v / top));
  });
  const data = table({
    t: bands[0].times,
    ...Object.fromEntries(columns.map((values, c) => [`band${c}`, values])),
  });
  const topDown = bands.map((_, i) => bands.length - 1 - i);
  return timeChart(analysis, frame, {
    title: 'Onsets by band',
    subtitle: 'Each peak is a sudden rise: kicks at the bottom, hats on top. Beats should stand on peaks.',
    description: 'Onset strength over time in four frequency bands.',
    height: 220,
    data,
    y: rowAxis(topDown.map((c) => hertzRange(bands[c].band))),
    layers: topDown.map((c, row) => rowArea(`band${c}`, row, bands.length, COLOURS.deep)),
  });
}

function hertzRange([low, high]: readonly [Hertz, Hertz]): string {
  const text = (f: Hertz) => (f >= 1000 ? `${f / 1000}` : `${f}`);
  if (low >= 1000) return `${text(low)}–${text(high)} kHz`;
  return high >= 1000 ? `${low} Hz–${text(high)} kHz` : `${low}–${high} Hz`;
}
