export * from './form.js';
