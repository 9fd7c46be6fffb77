export * from './truth.js';
