export * from './analysis.js';
export { parseTrackAnalysis, trackAnalysisJsonSchema, trackAnalysisSchema } from './schema.js';
