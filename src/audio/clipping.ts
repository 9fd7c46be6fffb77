import type { AudioBlock } from './source.js';

/** Samples from here on count as full scale: the highest number of 16 bits and above. */
const FULL_SCALE = 32_766 / 32_768;
/** So many in a row of one height and sign are a top that was cut off; music that only touches full scale has fewer. */
const CUT_TOP = 4;

/** Counts what was cut off at full scale. */
export interface ClippingCounter {
  push(block: AudioBlock): void;
  /** Share of all samples that lie in tops that were cut off, 0 to 1. */
  share(): number;
}

/** Starts counting; runs that go on from one block into the next are counted in the first only. */
export function createClippingCounter(): ClippingCounter {
  let [cut, total] = [0, 0];
  return {
    push(block) {
      for (const samples of block) {
        total += samples.length;
        cut += cutTops(samples);
      }
    },
    share: () => cut / Math.max(total, 1),
  };
}

/** Bits of a sample without its sign; in their order numbers from `FULL_SCALE` on, and what is no number, come last (IEEE 754). */
const MAGNITUDE = 0x7fffffff;
const FULL_BITS = new Int32Array(Float32Array.of(FULL_SCALE).buffer)[0];

function cutTops(samples: Float32Array): number {
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length);
  let cut = 0;
  const last = samples.length - CUT_TOP;
  // Of any CUT_TOP samples in a row one is looked at: a run cannot slip through.
  for (let i = CUT_TOP - 1; i < samples.length; i += CUT_TOP) {
    if ((bits[i] & MAGNITUDE) < FULL_BITS) continue;
    const level = samples[i];
    let from = i;
    while (from > 0 && samples[from - 1] === level) from--;
    let to = i + 1;
    while (to < samples.length && samples[to] === level) to++;
    if (to - from < CUT_TOP) continue;
    cut += to - from;
    if (to > last) break;
    i = to - 1;
  }
  return cut;
}
