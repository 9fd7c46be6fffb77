import type { FrontEnd } from '../signal/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { chromaChart } from './chromachart.js';
import type { TrackCurves } from './curves.js';
import { layersChart } from './layerschart.js';
import { BRUSH } from './linking.js';
import { noveltyChart } from './novelty.js';
import { onsetChart } from './onset.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type Json, type SpecPart } from './spec.js';
import { tempoChart } from './tempochart.js';
import { tempogramChart } from './tempogramchart.js';
import { COLOURS, CONFIG } from './theme.js';
import type { ChartOptions } from './timechart.js';
import { waveformChart } from './waveform.js';

/** Charts that can be linked. @experimental */
export const LINKABLE = ['waveform', 'onsets', 'novelty', 'tempogram', 'tempo', 'chroma', 'layers'] as const;
/** One of `LINKABLE`. @experimental */
export type Linkable = (typeof LINKABLE)[number];

/** What the linked charts are drawn from. @experimental */
export interface LinkedSources {
  readonly analysis: TrackAnalysis;
  readonly curves: TrackCurves;
  readonly frontEnd: Pick<FrontEnd, 'chroma'>;
}

/**
 * Charts under each other that move together: drag over the level on top, and all others show that stretch; a double
 * click shows everything again. Where nothing runs vega, all of them show the whole track.
 * @experimental
 * @param kinds which charts, in order; waveform, onsets, novelty and layers by default
 */
export function linkedCharts(
  { analysis, curves, frontEnd }: LinkedSources,
  kinds: readonly Linkable[] = ['waveform', 'onsets', 'novelty', 'layers'],
): ChartSpec {
  const options: ChartOptions = { linked: true };
  const draw: Record<Linkable, () => ChartSpec> = {
    waveform: () => waveformChart(curves, analysis, options),
    onsets: () => onsetChart(curves, analysis, options),
    novelty: () => noveltyChart(curves, analysis, options),
    tempogram: () => tempogramChart(curves, analysis, options),
    tempo: () => tempoChart(analysis, options),
    chroma: () => chromaChart(frontEnd, analysis, options),
    layers: () => layersChart(analysis, options),
  };
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: 'Charts of a track that show the same stretch of time.',
    vconcat: [overview(waveformChart(curves, analysis)), ...kinds.map((kind) => part(draw[kind]()))],
    spacing: 22,
    resolve: { scale: { stroke: 'independent', strokeWidth: 'independent', strokeDash: 'independent' } },
    config: CONFIG,
  };
}

/** A chart as a part of another: what only the outermost may have is left out. */
function part(chart: ChartSpec): SpecPart {
  return Object.fromEntries(Object.entries(chart).filter(([key]) => key !== '$schema' && key !== 'config'));
}

/** The level of the whole track, low, in which one brushes. */
function overview(chart: ChartSpec): SpecPart {
  const layers = chart['layer'] as readonly SpecPart[];
  const first = layers.findIndex((layer) => (layer['mark'] as SpecPart)['type'] === 'area');
  const brush: Json = {
    name: BRUSH,
    select: {
      type: 'interval',
      encodings: ['x'],
      mark: { fill: COLOURS.accent, fillOpacity: 0.12, stroke: COLOURS.accent, strokeWidth: 1.5 },
    },
  };
  // A selection wants a view of one layer.
  return {
    title: {
      text: 'Drag here to choose a stretch',
      subtitle: 'The charts below show it. A double click shows the whole track.',
    },
    width: chart['width'],
    height: 60,
    data: chart['data'],
    ...layers[first],
    params: [brush],
  };
}
