export * from './frontend.js';
export { createFrontEnd, type FrontEndBuilder } from './compute.js';
export { butterworth, createBiquad, settled, type Biquad, type BiquadCoefficients } from './biquad.js';
export { addEnergies } from './energies.js';
export { loadFft, realFft } from './fft.js';
export { borrowKernels, createKernels, pairs, type Kernels, type Room } from './kernels/kernels.js';
