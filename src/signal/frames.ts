import type { Kernels, Room } from './kernels/kernels.js';

/**
 * Cuts a stream of samples into overlapping frames whose centres lie at 0, hop, 2·hop, …; the signal is taken as zero
 * before its start and after its end.
 */
export interface Framer {
  /** @param length how many of the samples count */
  push(samples: Room<Float32Array>, length: number): void;
  /** Emits the frames that still have their centre inside the signal. */
  finish(): void;
}

/** @param most samples that are pushed at a time, @param onFrame gets the place of a frame in the memory of the loops */
export function createFramer(
  kernels: Kernels,
  window: number,
  hop: number,
  most: number,
  onFrame: (frame: number) => void,
): Framer {
  const half = window / 2;
  const { at: place, view: buffer } = kernels.floats(window + most);
  let filled = half; // the zeros before the start
  let total = 0;
  let emitted = 0;

  function drain(): void {
    let at = 0;
    while (at + window <= filled) {
      onFrame(place + at * 4);
      emitted++;
      at += hop;
    }
    buffer.copyWithin(0, at, filled);
    filled -= at;
  }

  return {
    push(samples, length) {
      total += length;
      buffer.set(samples.view.subarray(0, length), filled);
      filled += length;
      if (filled >= window) drain();
    },
    finish() {
      const wanted = Math.floor(total / hop) + 1;
      while (emitted < wanted) {
        const n = Math.min(hop, buffer.length - filled);
        buffer.fill(0, filled, filled + n);
        filled += n;
        if (filled >= window) drain();
      }
    },
  };
}
