export * from './analysis.js';
export { parseTrackAnalysis, trackAnalysisJsonSchema, trackAnalysisSchema } from './schema.js';
export {
  analyseTrack,
  analyseWithCurves,
  analysisIdentity,
  hearTrack,
  inspectTrack,
  structureOf,
  type HeardTrack,
} from './analyse.js';
export * from './corrections/index.js';
export { correctTrack, undoCorrection, type CorrectedTrack, type CorrectOptions } from './correct.js';
export { takeCorrections, type RefusedCorrection, type TakenCorrections, type TakeOptions } from './take.js';
export { countRows, type CountRow } from './count-rows.js';
export { gridOf } from './grid-of.js';
export * from './readings/index.js';
export { oddPhrasesUntold, tellTrack, type StoryBreak, type StorySection, type TrackStory } from './story.js';
export { changesBetween, type AnalysisChange } from './changes.js';
export { digestOf, type AnalyseOptions, type Constraints } from './options.js';
