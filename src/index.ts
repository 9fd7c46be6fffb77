/**
 * Barwise as a library: from an audio file to its beats, bars, groups, phrases, sections, events and irregularities.
 * Charts are `barwise/charts`, printed pieces `barwise/reports`, notebooks `barwise/notebook`.
 */
export * from './units/index.js';
export * from './track/index.js';
