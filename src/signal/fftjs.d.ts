declare module 'fft.js' {
  /** Radix-4 FFT of a power-of-two size; complex arrays are interleaved. */
  export default class FFT {
    constructor(size: number);
    realTransform(output: Float64Array, input: Float64Array): void;
    transform(output: Float64Array, input: Float64Array): void;
    inverseTransform(output: Float64Array, input: Float64Array): void;
    completeSpectrum(spectrum: Float64Array): void;
  }
}
