import type { TrackAnalysis } from '../track/index.js';
import { NOVELTY_PARTS, type NoveltyHalf, type NoveltyPart, type TrackCurves } from './curves.js';
import { rowArea, rowAxis } from './rows.js';
import { sectionStrip } from './sections.js';
import type { ChartSpec } from './spec.js';
import { table } from './table.js';
import { COLOURS } from './theme.js';
import { frameOf, timeChart, type ChartOptions } from './timechart.js';

/** What of the novelty is drawn. @public */
export interface NoveltyOptions extends ChartOptions {
  /** Bars compared before and after each bar line: 4, 8 (the default) or 16. */
  readonly halfBars?: NoveltyHalf;
}

const NAMES: Readonly<Record<NoveltyPart, string>> = {
  chroma: 'harmony',
  high: 'above 5.5 kHz',
  mid: '0.4–5.5 kHz',
  low: 'below 220 Hz',
};

/**
 * How much the bars after each bar line differ from those before it, by band: peaks are where phrases may start.
 * @public
 */
export function noveltyChart(curves: TrackCurves, analysis: TrackAnalysis, options: NoveltyOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const half = options.halfBars ?? 8;
  const columns = Object.fromEntries(NOVELTY_PARTS.map((part) => [part, scaled(curves.novelty[part][half])]));
  const data = table({ t: analysis.bars.map(({ start }) => start), ...columns });
  const topDown = [...NOVELTY_PARTS].reverse();
  const rows = topDown.length;
  const y = rowAxis(topDown.map((part) => NAMES[part]));
  return timeChart(analysis, frame, {
    title: 'Change between bars, by band',
    subtitle: `Novelty: the ${half} bars after each bar line against the ${half} before it.`,
    description: `Checkerboard novelty over ${half} bars in four parts of the sound.`,
    height: 220,
    data,
    y: { ...y, scale: { domain: [0, rows + 0.35], nice: false, zero: false } },
    layers: [...topDown.map((part, row) => rowArea(part, row, rows, COLOURS.middle))],
    labels: sectionStrip(analysis, frame, rows + 0.17),
  });
}

function scaled(curve: Float32Array): number[] {
  let top = 0;
  for (const value of curve) top = Math.max(top, value);
  return Array.from(curve, (value) => (top > 0 ? value / top : 0));
}
