import type { TrackAnalysis } from '../track/index.js';
import { LAYERS } from '../units/index.js';
import { rowArea, rowAxis } from './rows.js';
import { sectionStrip } from './sections.js';
import type { ChartSpec, SpecPart } from './spec.js';
import { table } from './table.js';
import { LAYER_COLOURS } from './theme.js';
import { frameOf, timeChart, type ChartOptions } from './timechart.js';

/** Presence is drawn in steps of a twentieth: finer ones cannot be seen. */
const STEPS = 20;

/**
 * Which layers play in each bar: one row a layer, as high as the layer is present. Drawn from the analysis alone.
 * @public
 */
export function layersChart(analysis: TrackAnalysis, options: ChartOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const { bars, layers, phrases } = analysis;
  const end = phrases[phrases.length - 1]?.end ?? analysis.source.durationSeconds;
  const topDown = [...LAYERS].reverse();
  const columns = Object.fromEntries(
    LAYERS.map((layer) => [layer, layers[layer].map((v) => Math.round((v ?? 0) * STEPS) / STEPS)]),
  );
  // One row more at the end, so that the last bar has its width.
  const data = table({
    t: [...bars.map(({ start }) => start), end],
    ...Object.fromEntries(Object.entries(columns).map(([layer, values]) => [layer, [...values, values.at(-1) ?? 0]])),
  });
  const rows = topDown.length;
  const silent = topDown.filter((layer) => bars.length > 0 && layers[layer].every((v) => v === null));
  const y = rowAxis(topDown.map((layer) => (silent.includes(layer) ? `${layer} (not judged)` : layer)));
  return timeChart(analysis, frame, {
    title: 'Layers',
    subtitle: 'A filled row: the layer plays in that bar; half filled: perhaps.',
    description: 'Presence of kick, bass, percussion, harmony and voice in each bar.',
    height: 210,
    data,
    y: { ...y, scale: { domain: [0, rows + 0.4], nice: false, zero: false } },
    layers: [...topDown.map((layer, row) => stepped(rowArea(layer, row, rows, LAYER_COLOURS[layer])))],
    labels: sectionStrip(analysis, frame, rows + 0.2),
  });
}

/** A bar's value holds until the next bar line. */
function stepped(layer: SpecPart): SpecPart {
  return { ...layer, mark: { ...(layer['mark'] as SpecPart), interpolate: 'step-after' } };
}
