export * from './grid.js';
