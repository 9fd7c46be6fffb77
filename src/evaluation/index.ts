export { beatScore, BEAT_WINDOW, cemgil, pScore, TRIM, trimBeats } from './beats.js';
export { continuity, type Continuity } from './continuity.js';
export { informationGain } from './information-gain.js';
export { beatTiming, quantile, type BeatTiming } from './timing.js';
export { eventScore, fScore, matchEvents, nearestTime, type FScore } from './matching.js';
export { metricalVariations } from './variations.js';
export { steadyTempo } from './steady.js';
export { tempoScore, type TempoScore } from './tempo.js';
export { keyScore } from './key.js';
export { median, type NamedKey } from '../units/index.js';
export {
  boundaries,
  BOUNDARY_WINDOWS,
  boundaryScore,
  pairwiseScore,
  spanning,
  type LabelledInterval,
} from './segments.js';
export { bootstrapMean, bootstrapQuantile, generator, type BootstrapOptions, type Interval } from './bootstrap.js';
export { cutTruth, groupsOf, type Groups, type Stretch, type Truth } from './truth.js';
export { readTruth } from './corpus-truth.js';
export { readArrangementTruth } from './arrangement-truth.js';
export { estimateOfAnalysis, estimateOfBeats, estimateOfForm, tempoOfBeats, type Estimate } from './estimate.js';
export { MEASURE_INFO, MEASURES, measureText, type Measure, type MeasureInfo, type Unit } from './measures.js';
export { scoreTrack, type Scores } from './score.js';
export { estimateOfJams, truthOfJams } from './jams.js';
export { hitScore, irregularityHits, layerHits, type Hits, type TimedIrregularity, type TimedLayer } from './events.js';
export { summarise, type Summary } from './summary.js';
export {
  answeredFrom,
  brierScore,
  reliability,
  riskCoverage,
  riskCoverageArea,
  type Judged,
  type Reliability,
  type RiskAtCoverage,
} from './confidence.js';
