import { realFft } from './fft.js';
import type { Kernels, Room } from './kernels/kernels.js';

/** Periodic Hann window of n samples, scaled so that a full-scale sine has power 1 in its bin. */
export function hann(n: number): Float32Array {
  const w = new Float32Array(n);
  for (let i = 0; i < n; i++) w[i] = (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n)) * (4 / n);
  return w;
}

/** Gives the spectrum of a frame in the memory of the loops, laid out as `RealFft.transform` does; the room is used again. */
export type Spectrum = (frame: number) => Room<Float32Array>;

/** Spectra of frames of n samples (a power of two) under a Hann window. */
export function createSpectrum(kernels: Kernels, n: number): Spectrum {
  const { loops } = kernels;
  const fft = realFft(n);
  const window = kernels.floats(n);
  window.view.set(hann(n));
  // The frame under its window and then its spectrum: the less memory, the more of it stays in the processor's cache.
  const room = kernels.floats(n);
  return (frame) => {
    loops.windowed(frame, window.at, room.at, n);
    fft.input().set(room.view);
    room.view.set(fft.transform());
    return room;
  };
}
