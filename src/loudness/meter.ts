import { createKernels } from '../signal/index.js';
import type { Hertz, LoudnessUnits, Lufs, Decibels } from '../units/index.js';
import { gatedLoudness, gatedRange } from './gates.js';
import { createWeightedEnergy, createWeightedPairEnergy, STEPS_PER_SECOND } from './power.js';
import { createPeakFollower } from './truepeak.js';

/** What the meter reads; `null` where there was nothing to read (silence, or too short for the window). */
export interface Loudness {
  /** Integrated loudness, ITU-R BS.1770-4. Needs 0.4 s. */
  readonly integratedLufs: Lufs | null;
  /** True peak in decibels relative to full scale, ITU-R BS.1770-4 annex 2. */
  readonly truePeakDbtp: Decibels | null;
  /** Loudness range, EBU Tech 3342. Needs 3 s. */
  readonly rangeLu: LoudnessUnits | null;
}

/** Takes samples block by block; memory grows by one number per 100 ms. */
export interface LoudnessMeter {
  /** @param block one array a channel, all of one length, ±1 is full scale */
  push(block: readonly Float32Array[]): void;
  finish(): Loudness;
}

/** Block of the integrated loudness and window of the range, in steps of 100 ms. */
const BLOCK_STEPS = 4;
const WINDOW_STEPS = 30;

/**
 * Starts a loudness meter after ITU-R BS.1770-4 and EBU Tech 3341/3342.
 *
 * @param sampleRate 8,000 to 192,000 Hz
 * @param channels 1 to 6, in the order of WAVE files: L R, L R C, L R Ls Rs, L R C Ls Rs, L R C LFE Ls Rs
 * @throws RangeError for anything else
 * @example
 * const meter = createLoudnessMeter(48_000, 1);
 * meter.push([Float32Array.from({ length: 48_000 }, (_, i) => Math.sin((2 * Math.PI * 997 * i) / 48_000))]);
 * meter.finish().integratedLufs; // -3.01
 */
export function createLoudnessMeter(sampleRate: Hertz, channels: number): LoudnessMeter {
  if (!(sampleRate >= 8_000 && sampleRate <= 192_000))
    throw new RangeError(`Sampling rate ${sampleRate} Hz is outside 8,000 to 192,000 Hz.`);
  const weights = channelWeights(channels);
  const front = channels > 1 ? createWeightedPairEnergy(sampleRate) : null;
  const firstSingle = front ? 2 : 0;
  const energies = weights.map(() => createWeightedEnergy(sampleRate));
  const kernels = createKernels();
  const peaks = weights.map(() => createPeakFollower(sampleRate, kernels));
  const steps: number[] = [];
  let done = 0; // frames so far
  let stepStart = 0;
  let stepEnd = Math.round(sampleRate / STEPS_PER_SECOND);
  let sum = 0;

  /** Adds the energy of a stretch of all channels to a sum. */
  function weighted(block: readonly Float32Array[], from: number, to: number, before: number): number {
    // Left and right are the first two of every layout, and count alike.
    let energy = front ? before + weights[0] * front(block[0], block[1], from, to) : before;
    for (let c = firstSingle; c < channels; c++)
      if (weights[c] > 0) energy += weights[c] * energies[c](block[c], from, to);
    return energy;
  }

  return {
    push(block) {
      if (block.length !== channels) throw new RangeError(`Expected ${channels} channels, got ${block.length}.`);
      const length = block[0].length;
      for (let from = 0; from < length;) {
        const to = Math.min(length, from + stepEnd - done);
        sum = weighted(block, from, to, sum);
        done += to - from;
        from = to;
        if (done === stepEnd) {
          steps.push(sum / (stepEnd - stepStart));
          sum = 0;
          stepStart = stepEnd;
          stepEnd = Math.round(((steps.length + 1) * sampleRate) / STEPS_PER_SECOND);
        }
      }
      for (let c = 0; c < channels; c++) peaks[c].push(block[c]);
    },
    finish() {
      const peak = Math.max(...peaks.map((p) => p.finish()));
      return {
        integratedLufs: gatedLoudness(movingMeans(steps, BLOCK_STEPS)),
        truePeakDbtp: peak > 0 ? 20 * Math.log10(peak) : null,
        rangeLu: gatedRange(movingMeans(steps, WINDOW_STEPS)),
      };
    },
  };
}

/** Weights of ITU-R BS.1770-4, table 3: surround channels 1.41, the low-frequency channel is left out. */
function channelWeights(channels: number): readonly number[] {
  const layouts: Record<number, readonly number[]> = {
    1: [1],
    2: [1, 1],
    3: [1, 1, 1],
    4: [1, 1, 1.41, 1.41],
    5: [1, 1, 1, 1.41, 1.41],
    6: [1, 1, 1, 0, 1.41, 1.41],
  };
  const weights = layouts[channels];
  if (!weights) throw new RangeError(`Loudness is defined here for 1 to 6 channels, not ${channels}.`);
  return weights;
}

/** Means of `width` neighbouring values at every step, from running sums. */
function movingMeans(values: readonly number[], width: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i] + values[i];
  const means = new Float64Array(Math.max(0, values.length - width + 1));
  for (let i = 0; i < means.length; i++) means[i] = (sums[i + width] - sums[i]) / width;
  return means;
}
