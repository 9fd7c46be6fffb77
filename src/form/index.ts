export * from './form.js';
export { findForm } from './find-form.js';
export { barFeatures, PARTS, type BarFeatures, type BarVectors, type Part } from './bars.js';
export { bandedSimilarity, checkerboard, similarityAt, type BandedSimilarity } from './similarity.js';
export { stepTable, GROUP_EDGES, GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';
export { FORM_WEIGHTS_ID } from './weights/index.js';
