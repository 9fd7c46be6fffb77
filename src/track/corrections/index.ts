export {
  correctionSchema,
  plainCorrection,
  type Correction,
  type CorrectionKind,
  type SaidCorrection,
} from './correction.js';
export { constraintsOf, toldOf } from './constraints.js';
export { contradict, isSameTempo, saysTheSame } from './contradictions.js';
export { isMet } from './met.js';
export { correctionWords } from './say.js';
export { correctionsFile, correctionsFolder, CORRECTIONS_VARIABLE } from './place.js';
export { CORRECTIONS_VERSION, parseCorrections, type CorrectionsFile } from './format.js';
export { correctionsJsonSchema } from './json-schema.js';
export { appendCorrections, readCorrections, removeCorrection, type CorrectionsOf } from './store.js';
