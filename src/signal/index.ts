export * from './frontend.js';
export { createFrontEnd, type FrontEndBuilder } from './compute.js';
export { butterworth, createBiquad, createBlockFilter, type Biquad, type BiquadCoefficients } from './biquad.js';
