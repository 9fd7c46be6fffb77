export * from './quantities.js';
export * from './vocabulary.js';
export * from './curve.js';
export * from './errors.js';
export * from './progress.js';
export * from './count.js';
