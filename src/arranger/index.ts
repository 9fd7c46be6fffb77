export * from './truth.js';
export * from './arrangement.js';
export { renderArrangement } from './render.js';
export type { Rendering } from './render.js';
export { arrangementTruth } from './truth-of.js';
