/**
 * Barwise as a library: from an audio file to its beats, bars, groups, phrases, sections, events and irregularities.
 * Charts are `barwise/charts`, printed pieces `barwise/reports`, practice audio `barwise/practice`, notebooks `barwise/notebook`.
 *
 * @module barwise
 */
export * from './units/index.js';
export * from './track/index.js';
export type { AudioWarning } from './audio/index.js';
export type { FormConstraints } from './form/index.js';
export type { GridConstraints } from './rhythm/index.js';
export type { FrontEnd } from './signal/index.js';
export * from './crate/index.js';
export * from './exchange/index.js';
export * from './matching/index.js';
export { keyName } from './wording/index.js';
