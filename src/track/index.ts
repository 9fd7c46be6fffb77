export * from './analysis.js';
export { parseTrackAnalysis, trackAnalysisJsonSchema, trackAnalysisSchema } from './schema.js';
export { analyseTrack, analyseWithCurves, analysisIdentity } from './analyse.js';
export { digestOf, type AnalyseOptions, type Constraints } from './options.js';
