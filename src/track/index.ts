export * from './analysis.js';
export { parseTrackAnalysis, trackAnalysisJsonSchema, trackAnalysisSchema } from './schema.js';
export {
  analyseTrack,
  analyseWithCurves,
  analysisIdentity,
  hearTrack,
  structureOf,
  type HeardTrack,
} from './analyse.js';
export * from './corrections/index.js';
export { digestOf, type AnalyseOptions, type Constraints } from './options.js';
