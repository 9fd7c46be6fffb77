import FFT from 'fft.js';
import type { Hertz, Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';

/**
 * A cyclic tempogram (Grosche, Müller & Kurth, "Cyclic tempogram – a mid-level tempo representation for music signals",
 * ICASSP 2010): octaves of a tempo are added up, so that its path is followed without knowing the level.
 */
export interface CyclicTempogram {
  /** Salience of bin b in window w at values[w * bins + b], each window scaled to mean 1. */
  readonly values: Float32Array;
  readonly windows: number;
  readonly bins: number;
  /** Pulse frequency of a bin: lowest · 2^(b / bins). */
  readonly lowest: Hertz;
  /** Centre of window 0 and distance of the centres. */
  readonly first: Seconds;
  readonly step: Seconds;
}

const WINDOW_ROWS = 600;
const STEP_ROWS = 100;
const FFT_SIZE = 4096;
const BINS = 180;
const LOWEST: Hertz = 1.5;
const OCTAVES: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 1],
  [4, 0.7],
  [8, 0.4],
];

/** The highest bin that is looked at, at the rate of onset curves. */
const HIGHEST_BIN = Math.ceil((8 * 2 * LOWEST * FFT_SIZE) / 100) + 1;

/** Six-second Hann windows, one a second. */
export function cyclicTempogram(onsets: OnsetCurves): CyclicTempogram {
  const { all, rate, rows } = onsets;
  const windows = Math.max(1, Math.floor(rows / STEP_ROWS));
  const values = new Float32Array(windows * BINS);
  const fft = new FFT(FFT_SIZE);
  const input = new Float64Array(2 * FFT_SIZE);
  const output = new Float64Array(2 * FFT_SIZE);
  const taper = Float64Array.from(
    { length: WINDOW_ROWS },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / WINDOW_ROWS),
  );
  const magnitude = new Float64Array(HIGHEST_BIN + 1);
  const places = placesOf(rate);
  // Two windows a transform, one as the real and one as the imaginary part.
  for (let w = 0; w < windows; w += 2) {
    setWindow(input, 0, all, w * STEP_ROWS + STEP_ROWS / 2 - WINDOW_ROWS / 2, taper);
    setWindow(input, 1, all, (w + 1) * STEP_ROWS + STEP_ROWS / 2 - WINDOW_ROWS / 2, taper);
    fft.transform(output, input);
    for (let part = 0; part < 2 && w + part < windows; part++) {
      magnitudesOf(output, part, magnitude);
      setSalience(values, (w + part) * BINS, magnitude, places);
    }
  }
  return {
    values,
    windows,
    bins: BINS,
    lowest: LOWEST,
    first: onsets.start + STEP_ROWS / 2 / rate,
    step: STEP_ROWS / rate,
  };
}

/**
 * Puts a window of a curve into the real (0) or the imaginary parts (1), less its mean, which is 1: slow frequencies hold no
 * remnant of it then.
 */
function setWindow(input: Float64Array, part: number, curve: Float32Array, from: number, taper: Float64Array): void {
  for (let i = 0; i < taper.length; i++) {
    const r = from + i;
    input[2 * i + part] = r >= 0 && r < curve.length ? (curve[r] - 1) * taper[i] : 0;
  }
}

/** Magnitudes of the spectrum of the real (0) or the imaginary parts (1): what bins at k and −k have in common, or not. */
function magnitudesOf(spectrum: Float64Array, part: number, out: Float64Array): void {
  const sign = part === 0 ? 1 : -1;
  for (let k = 0; k < out.length; k++) {
    const there = 2 * ((FFT_SIZE - k) % FFT_SIZE);
    const re = spectrum[2 * k] + sign * spectrum[there];
    const im = spectrum[2 * k + 1] - sign * spectrum[there + 1];
    out[k] = Math.sqrt(re * re + im * im) / 2;
  }
}

/** Where the octaves of each bin lie in the spectrum, octave after octave. */
function placesOf(rate: Hertz): Float64Array {
  const places = new Float64Array(OCTAVES.length * BINS);
  OCTAVES.forEach(([k], o) => {
    for (let b = 0; b < BINS; b++) places[o * BINS + b] = (k * LOWEST * 2 ** (b / BINS) * FFT_SIZE) / rate;
  });
  return places;
}

function setSalience(values: Float32Array, at: number, magnitude: Float64Array, places: Float64Array): void {
  let sum = 0;
  for (let b = 0; b < BINS; b++) {
    let s = 0;
    for (let o = 0; o < OCTAVES.length; o++) {
      const x = places[o * BINS + b];
      const i = Math.floor(x);
      s += OCTAVES[o][1] * (magnitude[i] + (x - i) * (magnitude[i + 1] - magnitude[i]));
    }
    values[at + b] = s;
    sum += s;
  }
  for (let b = 0; b < BINS && sum > 0; b++) values[at + b] *= BINS / sum;
}

/** Nats for one unit of salience. */
const EVIDENCE = 4;
/** Nats for moving by one bin (0.4 %) within a second, growing with the square. */
const MOVE = 0.5;
const FARTHEST = 4;
/** Nats for a jump to any other tempo. */
const JUMP = 16;

/** The likeliest path through the tempogram (Viterbi): a pulse frequency a window, continuous across octaves. */
export function tempoPath(t: CyclicTempogram): Float64Array {
  const { values, windows, bins } = t;
  let score = new Float64Array(bins);
  const back = new Int16Array(windows * bins);
  for (let w = 0; w < windows; w++) {
    const next = new Float64Array(bins);
    let top = 0;
    for (let b = 1; b < bins; b++) if (score[b] > score[top]) top = b;
    for (let b = 0; b < bins; b++) {
      let from = top;
      let best = score[top] - JUMP;
      for (let d = -FARTHEST; d <= FARTHEST; d++) {
        const p = (b - d + bins) % bins;
        const s = score[p] - MOVE * d * d;
        if (s > best) {
          best = s;
          from = p;
        }
      }
      next[b] = best + EVIDENCE * values[w * bins + b];
      back[w * bins + b] = from;
    }
    score = next;
  }
  const path = new Float64Array(windows);
  let b = score.indexOf(Math.max(...score));
  const chosen: number[] = [];
  for (let w = windows - 1; w >= 0; w--) {
    chosen[w] = b;
    b = back[w * bins + b];
  }
  // Unwrap: of the octaves of each step the nearest to the one before.
  let octave = 0;
  for (let w = 0; w < windows; w++) {
    if (w > 0) {
      const d = chosen[w] - chosen[w - 1];
      if (d > bins / 2) octave--;
      if (d < -bins / 2) octave++;
    }
    path[w] = t.lowest * 2 ** (chosen[w] / bins + octave);
  }
  return path;
}
