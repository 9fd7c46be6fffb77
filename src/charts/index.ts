/**
 * Charts: an analysis and its curves as vega-lite specifications, and those as SVG.
 *
 * @module barwise/charts
 */
export { isChartSpec, type ChartSpec, type Json, type SpecPart } from './spec.js';
export { prepareDrawing, toSvg } from './svg.js';
export { compactSvg } from './compact.js';
export { computeCurves, NOVELTY_HALVES, NOVELTY_PARTS } from './curves.js';
export type { BarSimilarity, NoveltyHalf, NoveltyPart, TrackCurves } from './curves.js';
export { TEMPO_RANGE, type Tempogram } from './tempogram.js';
export { PHASE_BINS, type PhaseHistogram } from './phase.js';
export { COLOURS, FONT, LAYER_COLOURS } from './theme.js';
export { textMeasure, type TextMeasure } from './measure.js';
export { loadPeer } from './peers.js';
export type { ChartOptions } from './timechart.js';
export { waveformChart } from './waveform.js';
export { onsetChart } from './onset.js';
export { noveltyChart, type NoveltyOptions } from './novelty.js';
export { tempogramChart } from './tempogramchart.js';
export { selfSimilarityChart } from './similaritychart.js';
export { layersChart } from './layerschart.js';
export { readingName, readingsChart } from './readings.js';
export { beatPhaseChart } from './phasechart.js';
export { crateKeyChart } from './crate/keys.js';
export { crateLoudnessChart } from './crate/loudness.js';
export { cratePhraseChart } from './crate/phrases.js';
export { crateTempoChart } from './crate/tempo.js';
export { chromaChart } from './chromachart.js';
export { tempoChart } from './tempochart.js';
export { ONE_CUES, oneEvidence, type OneCue, type OneReading } from './one-evidence.js';
export { oneEvidenceChart } from './onechart.js';
export { comparisonChart, type ComparisonOptions } from './comparison.js';
export { LINKABLE, linkedCharts, type Linkable, type LinkedSources } from './linked.js';
