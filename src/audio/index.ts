export * from './source.js';
