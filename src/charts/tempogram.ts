import type { Bpm, CurveSet, Hertz, Seconds } from '../units/index.js';

/**
 * Strength of each tempo over time: `values[row * tempos.length + k]` from 0 to 1, rows ascend in time.
 * @experimental
 */
export interface Tempogram {
  readonly values: Float32Array;
  readonly rows: number;
  /** On a logarithmic scale, ascending. */
  readonly tempos: readonly Bpm[];
  readonly rate: Hertz;
  readonly start: Seconds;
}

/** Range of tempos, and how many of them: 40 an octave, about 1.7 % apart. @experimental */
export const TEMPO_RANGE: readonly [Bpm, Bpm] = [40, 240];
const PER_OCTAVE = 40;

/** Length of the window: about sixteen beats, so that neighbouring tempos part and a change of tempo still shows. */
const WINDOW: Seconds = 8;
/** The window moves on by this much, and by more in long tracks: at most `MOST_ROWS` rows. */
const HOP: Seconds = 0.5;
const MOST_ROWS = 480;

/**
 * Fourier tempogram: the magnitude of the onset curve's Fourier transform at musical tempos in a sliding Hann window
 * (Grosche & Müller, "Extracting Predominant Local Pulse Information from Music Recordings", IEEE TASLP 2011), each
 * row scaled to its own maximum.
 * @param onsets the columns are added up
 */
export function tempogram(onsets: CurveSet): Tempogram {
  const { curve, rate } = halved(onsets);
  const duration = curve.length / rate;
  const octaves = Math.log2(TEMPO_RANGE[1] / TEMPO_RANGE[0]);
  const count = Math.round(octaves * PER_OCTAVE) + 1;
  const tempos = Array.from({ length: count }, (_, k) => TEMPO_RANGE[0] * 2 ** ((octaves * k) / (count - 1)));
  const hop = Math.max(HOP, duration / MOST_ROWS);
  const rows = Math.max(1, Math.floor(duration / hop) + 1);
  const window = Math.round(WINDOW * rate);
  const waves = tempos.map((bpm) => wave(bpm / 60 / rate, window));
  const values = new Float32Array(rows * count);
  const frame = new Float32Array(window);
  for (let row = 0; row < rows; row++) {
    const first = Math.round(row * hop * rate - window / 2);
    fill(frame, curve, first);
    let largest = 0;
    for (let k = 0; k < count; k++) {
      const { real, imaginary } = waves[k];
      let re = 0;
      let im = 0;
      for (let i = 0; i < window; i++) {
        re += frame[i] * real[i];
        im += frame[i] * imaginary[i];
      }
      const magnitude = Math.hypot(re, im);
      values[row * count + k] = magnitude;
      largest = Math.max(largest, magnitude);
    }
    if (largest > 0) for (let k = 0; k < count; k++) values[row * count + k] /= largest;
  }
  return { values, rows, tempos, rate: 1 / hop, start: onsets.start };
}

/** The sum of the columns at half the rate, as two neighbouring values added. */
function halved({ values, columns, rows, rate }: CurveSet): { curve: Float32Array; rate: Hertz } {
  const curve = new Float32Array(Math.floor(rows / 2));
  for (let i = 0; i < curve.length * 2; i++) for (let c = 0; c < columns; c++) curve[i >> 1] += values[i * columns + c];
  return { curve, rate: rate / 2 };
}

/** The stretch of the curve in the window, without its mean; nothing outside the track. */
function fill(frame: Float32Array, curve: Float32Array, first: number): void {
  let sum = 0;
  let inside = 0;
  for (let i = 0; i < frame.length; i++) {
    const at = first + i;
    const there = at >= 0 && at < curve.length;
    frame[i] = there ? curve[at] : NaN;
    if (there) sum += curve[at];
    if (there) inside++;
  }
  const mean = inside > 0 ? sum / inside : 0;
  for (let i = 0; i < frame.length; i++) frame[i] = Number.isNaN(frame[i]) ? 0 : frame[i] - mean;
}

function wave(frequency: number, length: number): { real: Float32Array; imaginary: Float32Array } {
  const real = new Float32Array(length);
  const imaginary = new Float32Array(length);
  for (let i = 0; i < length; i++) {
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / length);
    real[i] = hann * Math.cos(2 * Math.PI * frequency * i);
    imaginary[i] = hann * Math.sin(2 * Math.PI * frequency * i);
  }
  return { real, imaginary };
}
