import { ANALYSIS_RATE, realFft } from '../signal/index.js';
import type { Frames, Hertz } from '../units/index.js';
import { addPeaks } from './pitch-profile.js';
import { createPeakPicker } from './spectral-peaks.js';
import { createWhitener } from './whitening.js';

/** Frames of 93 ms, side by side; the first is centred on the first sample. */
export const FRAME: Frames = 4096;
/** Notes are looked for up to here; peaks must be stronger than −80 dBFS, and 60 a frame are enough. */
const HIGHEST: Hertz = 3500;
const THRESHOLD = 1e-4;
const MOST_PEAKS = 60;
/** Bins that peaks and envelope reach: the last envelope point sees up to 1.2 · 1.58 times the highest note. */
const BINS = Math.ceil(((HIGHEST * 1.2 * 1.58) / ANALYSIS_RATE) * FRAME) + 2;

/**
 * The track is heard twice: all of it, and without what lies below 120 Hz. A tuned kick can pass for a key with its one
 * note, but then the rest of the drums says something else, or nothing.
 */
const WITH_BASS: Hertz = 25;
const WITHOUT_BASS: Hertz = 120;

/** Power of the twelve pitch classes in excerpts of a track, C first. */
export interface PitchProfiles {
  readonly full: Float64Array;
  readonly withoutBass: Float64Array;
  /** Each part on its own, without bass. */
  readonly parts: readonly Float64Array[];
}

/**
 * Hears the notes of excerpts put together, and of some parts of them, as essentia's KeyExtractor does: whitened spectral
 * peaks and their harmonic pitch class profile; every frame is transformed once, where asking it for the whole, the whole
 * without bass and each part would transform it three times and cost ten times as much.
 *
 * @param samples mono at 44.1 kHz
 * @param cuts where parts begin and the last one ends, in frames of `FRAME` samples
 */
export function hearPitches(samples: Float32Array, cuts: readonly number[]): PitchProfiles {
  const full = new Float64Array(12);
  const hear = createFrameEar();
  const frames = Math.ceil((samples.length + FRAME / 2) / FRAME);
  const upper: Float64Array[] = [];
  for (let f = 0; f < frames; f++) upper.push(hear(samples, f * FRAME, full));
  const parts: Float64Array[] = [];
  for (let p = 0; p + 1 < cuts.length; p++) {
    const part = samples.subarray(cuts[p] * FRAME, Math.min(samples.length, cuts[p + 1] * FRAME));
    if (part.length === 0) continue;
    const last = Math.ceil((part.length + FRAME / 2) / FRAME) - 1;
    // A part begins and ends in silence; the frames between are those of the whole.
    const inside = upper.slice(cuts[p] + 1, cuts[p] + last);
    parts.push(sum([hear(part, 0), ...inside, ...(last > 0 ? [hear(part, last * FRAME)] : [])]));
  }
  return { full, withoutBass: sum(upper), parts };
}

/** Hears one frame: gives its profile without bass, and adds the one with bass to another where that is wanted. */
function createFrameEar(): (samples: Float32Array, centre: Frames, full?: Float64Array) => Float64Array {
  const fft = realFft(FRAME);
  const window = hann(FRAME);
  const magnitudes = new Float32Array(BINS);
  const bins = FRAME / 2 + 1;
  const peaksFrom = (lowest: Hertz) =>
    createPeakPicker(bins, ANALYSIS_RATE, { lowest, highest: HIGHEST, threshold: THRESHOLD, most: MOST_PEAKS });
  const fullPeaks = peaksFrom(WITH_BASS);
  const upperPeaks = peaksFrom(WITHOUT_BASS);
  const whitener = createWhitener(bins, ANALYSIS_RATE, HIGHEST);
  return (samples, centre, full) => {
    windowed(samples, centre - FRAME / 2, window, fft.input());
    magnitudesOf(fft.transform(), magnitudes);
    whitener.envelope(magnitudes);
    const upper = new Float64Array(12);
    for (const [profile, pick, lowest] of [
      [full, fullPeaks, WITH_BASS],
      [upper, upperPeaks, WITHOUT_BASS],
    ] as const) {
      if (!profile) continue;
      const peaks = pick(magnitudes);
      whitener.whiten(peaks);
      addPeaks(profile, peaks, lowest);
    }
    return upper;
  };
}

/** A frame under its window, from a place that may lie outside the samples: there is silence. */
function windowed(samples: Float32Array, start: Frames, window: Float64Array, frame: Float32Array): void {
  const from = Math.max(0, -start);
  const to = Math.min(window.length, samples.length - start);
  frame.fill(0, 0, from);
  for (let i = from; i < to; i++) frame[i] = samples[start + i] * window[i];
  frame.fill(0, to);
}

function magnitudesOf(spectrum: Float32Array, magnitudes: Float32Array): void {
  magnitudes[0] = Math.abs(spectrum[0]);
  for (let k = 1; k < magnitudes.length; k++)
    magnitudes[k] = Math.sqrt(spectrum[2 * k] * spectrum[2 * k] + spectrum[2 * k + 1] * spectrum[2 * k + 1]);
}

/** Symmetric Hann window under which a full-scale sine has magnitude 1. */
function hann(length: number): Float64Array {
  const w = Float64Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / (length - 1)));
  const area = w.reduce((a, b) => a + b, 0);
  return w.map((v) => (2 * v) / area);
}

function sum(profiles: readonly Float64Array[]): Float64Array {
  const total = new Float64Array(12);
  for (const profile of profiles) for (let c = 0; c < 12; c++) total[c] += profile[c];
  return total;
}
