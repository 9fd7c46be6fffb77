export * from './analysis.js';
