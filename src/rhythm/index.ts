export * from './grid.js';
export { findGrid } from './find-grid.js';
export { ONSET_BANDS, onsetCurves, type OnsetCurves } from './onsets.js';
