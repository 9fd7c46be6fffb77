export { createLoudnessMeter, type Loudness, type LoudnessMeter } from './meter.js';
export { kWeighting, type Section as FilterSection } from './kweighting.js';
