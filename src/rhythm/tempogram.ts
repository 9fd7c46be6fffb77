import FFT from 'fft.js';
import { borrowKernels } from '../signal/index.js';
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
  // Two windows a transform: there may be one too many.
  const pairs = Math.ceil(windows / 2);
  const kernels = borrowKernels(
    4 * (rows + 2 * pairs * BINS) + 8 * (4 * FFT_SIZE + WINDOW_ROWS + HIGHEST_BIN + 5 * BINS),
  );
  const curve = kernels.floats(rows);
  curve.view.set(all);
  const [values, taper] = [kernels.floats(2 * pairs * BINS), kernels.doubles(hann(WINDOW_ROWS)).at];
  const [input, spectrum] = [0, 1].map(() => kernels.doubles(2 * FFT_SIZE));
  const magnitudes = kernels.doubles(HIGHEST_BIN + 1).at;
  const places = kernels.doubles(placesOf(rate)).at;
  const weights = kernels.doubles(OCTAVES.map(([, weight]) => weight)).at;
  const fft = new FFT(FFT_SIZE);
  for (let pair = 0; pair < pairs; pair++) {
    const from = 2 * pair * STEP_ROWS + STEP_ROWS / 2 - WINDOW_ROWS / 2;
    kernels.loops.windows(curve.at, rows, from, STEP_ROWS, taper, WINDOW_ROWS, input.at);
    fft.transform(spectrum.view, input.view);
    kernels.loops.salience(spectrum.at, FFT_SIZE, magnitudes, HIGHEST_BIN, places, weights, OCTAVES.length, BINS, values.at + 8 * pair * BINS); // prettier-ignore
  }
  return {
    values: values.view.slice(0, windows * BINS),
    windows,
    bins: BINS,
    lowest: LOWEST,
    first: onsets.start + STEP_ROWS / 2 / rate,
    step: STEP_ROWS / rate,
  };
}

function hann(rows: number): Float64Array {
  const taper = new Float64Array(rows);
  for (let i = 0; i < rows; i++) taper[i] = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / rows);
  return taper;
}

/** Where the octaves of each bin lie in the spectrum, octave after octave. */
function placesOf(rate: Hertz): Float64Array {
  const places = new Float64Array(OCTAVES.length * BINS);
  OCTAVES.forEach(([k], o) => {
    for (let b = 0; b < BINS; b++) places[o * BINS + b] = (k * LOWEST * 2 ** (b / BINS) * FFT_SIZE) / rate;
  });
  return places;
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
  const kernels = borrowKernels(4 * values.length + 16 * bins + 2 * windows * bins);
  const [saliences, scores, next] = [kernels.floats(values.length), kernels.doubles(bins), kernels.doubles(bins)];
  const room = kernels.bytes(2 * windows * bins);
  saliences.view.set(values);
  kernels.loops.circling(saliences.at, windows, bins, EVIDENCE, MOVE, FARTHEST, JUMP, scores.at, next.at, room.at);
  const back = new Int16Array(room.view.buffer, room.at, windows * bins);
  const score = scores.view;
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
