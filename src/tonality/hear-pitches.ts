import { ANALYSIS_RATE, createKernels, realFft } from '../signal/index.js';
import type { Frames, Hertz } from '../units/index.js';
import { A4, CLASS_OF_A4, PARTIALS } from './pitch-profile.js';
import { envelopePoints, WHITENING } from './whitening.js';

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
 * without bass and each part would transform it three times and cost ten times as much. Peaks are local maxima, moved to the top of the parabola through three bins
 * (J. O. Smith and X. Serra, "PARSHL: An Analysis/Synthesis Program for Non-Harmonic Sounds", 1987).
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
  const kernels = createKernels();
  const { loops } = kernels;
  const bins = FRAME / 2 + 1;
  const points = envelopePoints(HIGHEST, bins, ANALYSIS_RATE);
  const window = kernels.doubles(hann(FRAME));
  const [frame, spectrum] = [kernels.floats(FRAME), kernels.floats(FRAME)];
  const magnitudes = kernels.floats(BINS).at;
  const [stretches, weights] = [kernels.integers(points.stretches), kernels.doubles(points.weights)];
  const count = points.stretches.length / 2;
  const levels = kernels.doubles(count).at;
  const peaks = kernels.doubles(2 * MOST_PEAKS).at;
  const partials = kernels.doubles(PARTIALS.flatMap(({ semitones, weight }) => [semitones, weight])).at;
  const profile = kernels.doubles(12);
  const { step, depth, tilt, nothing } = WHITENING;
  const width = ANALYSIS_RATE / FRAME;
  const last = Math.min(bins - 2, Math.floor(HIGHEST / width) + 1);

  /** Adds the notes of the frame from a frequency up to what stands in `profile`. */
  function addNotes(lowest: Hertz): void {
    const first = Math.ceil(lowest / width);
    const found = loops.peaksOf(magnitudes, first, last, width, HIGHEST, THRESHOLD, MOST_PEAKS, peaks);
    loops.whitened(peaks, found, levels, step, depth, tilt, nothing);
    loops.addPeaks(profile.at, peaks, found, lowest, A4, CLASS_OF_A4, partials, PARTIALS.length);
  }

  return (samples, centre, full) => {
    takeFrame(samples, centre - FRAME / 2, frame.view);
    loops.tapered(frame.at, window.at, FRAME, frame.at);
    fft.input().set(frame.view);
    spectrum.view.set(fft.transform());
    loops.magnitudes(spectrum.at, BINS, magnitudes);
    loops.envelope(magnitudes, stretches.at, weights.at, count, nothing, levels);
    if (full) {
      profile.view.set(full);
      addNotes(WITH_BASS);
      full.set(profile.view);
    }
    profile.view.fill(0);
    addNotes(WITHOUT_BASS);
    return profile.view.slice();
  };
}

/** A frame from a place that may lie outside the samples: there is silence. */
function takeFrame(samples: Float32Array, start: Frames, frame: Float32Array): void {
  const from = Math.max(0, -start);
  const part = samples.subarray(start + from, start + frame.length);
  frame.fill(0);
  frame.set(part, from);
}

/** Symmetric Hann window under which a full-scale sine has magnitude 1. */
function hann(length: number): Float64Array {
  const w = new Float64Array(length);
  let area = 0;
  for (let i = 0; i < length; i++) {
    w[i] = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / (length - 1));
    area += w[i];
  }
  for (let i = 0; i < length; i++) w[i] = (2 * w[i]) / area;
  return w;
}

function sum(profiles: readonly Float64Array[]): Float64Array {
  const total = new Float64Array(12);
  for (const profile of profiles) for (let c = 0; c < 12; c++) total[c] += profile[c];
  return total;
}
