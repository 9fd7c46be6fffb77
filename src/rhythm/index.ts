export * from './grid.js';
export { findGrid } from './find-grid.js';
export { ONSET_BANDS, onsetCurves, type OnsetCurves } from './onsets.js';
export { RHYTHM_WEIGHTS_ID } from './weights-id.js';
