import { borrowKernels } from '../signal/index.js';
import type { Frames } from '../units/index.js';

/** Samples of one excerpt: four analysis frames of the key extractor (0.37 s at 44.1 kHz). */
export const EXCERPT: Frames = 4 * 4096;
/**
 * Excerpts that are kept at most: 24 to 48 s of a longer track, 8 MB. With five times as much, 13 of 21 development songs
 * got the key of their notes, as they do with this.
 */
const CAPACITY = 128;
/** Fade at both ends of an excerpt that is cut from its neighbours, so that the cut adds no click (6 ms). */
const FADE: Frames = 256;
/** Excerpts this far below the loudest say nothing (−50 dB as a power ratio). */
const SILENT = 1e-5;
/** Level everything is brought to: the extractor has thresholds of its own (root mean square 0.2, −14 dBFS). */
const LEVEL = 0.2;

/** Evenly spread excerpts of a stream of samples. */
export interface Reservoir {
  /**
   * Takes the middle of two channels, which it mixes only where it keeps it; the same array twice is mono. Non-finite samples
   * count as zero.
   */
  push(left: Float32Array, right: Float32Array): void;
  /** The excerpts in order, at one level; empty when the stream was silent. */
  finish(): Float32Array[];
}

/**
 * Starts a reservoir: it keeps every excerpt, then every second, every fourth … as the stream gets longer.
 * @param expected how long the stream will be: what would be let go of later is not even begun with
 */
export function createReservoir(expected: Frames = 0): Reservoir {
  let kept: Float32Array[] = [];
  let stride = strideFor(Math.floor(expected / EXCERPT));
  let index = 0; // of the excerpt being filled
  let current = new Float32Array(EXCERPT);
  let filled = 0;

  function store(excerpt: Float32Array): void {
    if (index % stride === 0) {
      kept.push(excerpt);
      current = new Float32Array(EXCERPT);
    }
    index++;
    filled = 0;
    if (kept.length < CAPACITY) return;
    kept = kept.filter((_, i) => i % 2 === 0);
    stride *= 2;
  }

  return {
    push(left, right) {
      for (let from = 0; from < left.length;) {
        const n = Math.min(left.length - from, EXCERPT - filled);
        if (index % stride === 0) mix(left, right, from, n, current, filled);
        filled += n;
        from += n;
        if (filled === EXCERPT) store(current);
      }
    },
    finish() {
      if (kept.length === 0 && filled > 0) kept.push(current.slice(0, filled));
      const powers = kept.map(powerOf);
      const loudest = Math.max(0, ...powers);
      if (loudest === 0) return [];
      const heard = kept.filter((_, i) => powers[i] > loudest * SILENT);
      const mean = powers.filter((p) => p > loudest * SILENT).reduce((a, b) => a + b, 0) / heard.length;
      const gain = LEVEL / Math.sqrt(mean);
      for (const excerpt of heard) level(excerpt, gain, stride > 1 || heard.length < kept.length);
      return heard;
    },
  };
}

/** Of how many excerpts one is kept once so many have come. */
function strideFor(excerpts: number): number {
  let stride = 1;
  while (Math.ceil(excerpts / stride) >= CAPACITY) stride *= 2;
  return stride;
}

/** Copies the middle of `n` frames from a place on to another place. */
function mix(left: Float32Array, right: Float32Array, from: number, n: number, out: Float32Array, at: number): void {
  if (left === right) return out.set(left.subarray(from, from + n), at);
  for (let i = 0; i < n; i++) out[at + i] = (left[from + i] + right[from + i]) / 2;
}

/** Mean power; what is no finite number counts as zero. */
function powerOf(x: Float32Array): number {
  const { loops, at } = inLoops(x);
  return loops.squares(at, x.length) / x.length;
}

/** Brings an excerpt to a level, in place, with a fade at both ends where it was cut out. */
function level(x: Float32Array, gain: number, fade: boolean): void {
  const { loops, at, view } = inLoops(x);
  loops.faded(at, x.length, gain, fade ? Math.ceil(Math.min(FADE, x.length / 2)) : 0, FADE);
  x.set(view);
}

/** A copy in the memory of the loops. */
function inLoops(x: Float32Array) {
  const kernels = borrowKernels(4 * x.length);
  const { at, view } = kernels.floats(x.length);
  view.set(x);
  return { loops: kernels.loops, at, view };
}
