import type { Hertz, Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { phasors } from './phasors.js';
import { smoothCurve } from './smooth-curve.js';
import { cyclicTempogram, tempoPath, type CyclicTempogram } from './tempogram.js';

/**
 * A time axis on which the pulse is steady: every later stage works as if the music were made to a clock, and its
 * results are carried back.
 */
export interface StraightTime {
  /** The onset curves on the straight axis. */
  readonly onsets: OnsetCurves;
  /** Pulse on the straight axis. */
  readonly pulse: Hertz;
  /** From the straight axis to seconds of the track, and back. */
  readonly toTime: (straight: Seconds) => Seconds;
  readonly toStraight: (time: Seconds) => Seconds;
}

/** Phases are read in windows of this many rows. */
const PHASE_ROWS = 200;
const ROUNDS = 3;

/** Follows the pulse through a tempogram, then by its phase, and lays it straight. */
export function straighten(onsets: OnsetCurves): StraightTime {
  const gram = cyclicTempogram(onsets);
  const path = tempoPath(gram);
  const pulse = path.slice().sort()[path.length >> 1];
  // Straight time at every row of the onset curves: the integral of the local pulse over the usual one.
  const straight = integrated(onsets, gram, path, pulse);
  // On the way only the sum of the bands is read.
  const sum = { ...onsets, bands: [] };
  let result = warp(sum, straight, pulse);
  for (let round = 0; round < ROUNDS; round++) {
    advance(straight, phaseLag(result.onsets, pulse), 0.25 / onsets.rate);
    result = warp(round + 1 < ROUNDS ? sum : onsets, straight, pulse);
  }
  return result;
}

function integrated(onsets: OnsetCurves, gram: CyclicTempogram, path: Float64Array, pulse: Hertz): Float64Array {
  const { rows, rate, start } = onsets;
  const { first, step } = gram;
  const straight = new Float64Array(rows);
  for (let r = 1; r < rows; r++) {
    const x = ((r - 0.5) / rate + start - first) / step;
    const i = Math.max(0, Math.min(path.length - 1, Math.floor(x)));
    const j = Math.min(path.length - 1, i + 1);
    const share = Math.max(0, Math.min(1, x - i));
    // A jump is a jump: between windows of quite different tempo nothing is blended.
    const local =
      Math.abs(path[j] / path[i] - 1) > 0.03 ? path[share < 0.5 ? i : j] : path[i] + share * (path[j] - path[i]);
    straight[r] = straight[r - 1] + local / pulse / rate;
  }
  return straight;
}

/** Takes a lag off straight time, which goes on by at least `least` from row to row. */
function advance(straight: Float64Array, { lags, first, step }: PhaseLag, least: Seconds): void {
  const end = lags.length - 1;
  for (let r = 0; r < straight.length; r++) {
    const x = Math.max(0, Math.min(end, (straight[r] - first) / step));
    const i = Math.min(Math.floor(x), Math.max(end - 1, 0));
    const next = i < end ? lags[i + 1] : lags[i];
    straight[r] -= lags[i] + (x - i) * (next - lags[i]);
  }
  for (let r = 1; r < straight.length; r++) straight[r] = Math.max(straight[r], straight[r - 1] + least);
}

/** How far the pulse lags behind its steady course (s), in windows of straight time: a smooth function between them. */
interface PhaseLag {
  readonly lags: ArrayLike<Seconds>;
  readonly first: Seconds;
  readonly step: Seconds;
}

function phaseLag(onsets: OnsetCurves, pulse: Hertz): PhaseLag {
  let best: { lag: number[]; weight: number[]; quality: number } | null = null;
  const multiples = [1, 2, 4].map((k) => k * pulse);
  for (const p of phasors(onsets.all, onsets.rate, onsets.start, multiples, PHASE_ROWS)) {
    const lag: number[] = [];
    const weight: number[] = [];
    let previous = 0;
    let turns = 0;
    let together = 0;
    let apart = 0;
    for (let b = 0; b < p.re.length; b++) {
      const angle = -Math.atan2(p.im[b], p.re[b]) / (2 * Math.PI);
      if (b > 0) {
        turns += Math.round(previous - angle - turns);
        together += Math.hypot(p.re[b] + p.re[b - 1], p.im[b] + p.im[b - 1]);
        apart += Math.hypot(p.re[b], p.im[b]) + Math.hypot(p.re[b - 1], p.im[b - 1]);
      }
      previous = angle + turns;
      lag.push(previous / p.frequency);
      weight.push(Math.hypot(p.re[b], p.im[b]));
    }
    const quality = (together / Math.max(apart, 1e-9)) * Math.sqrt(apart);
    if (!best || quality > best.quality) best = { lag, weight, quality };
  }
  const { lag, weight } = best!;
  const centre = [...lag].sort((a, b) => a - b)[lag.length >> 1];
  const lags = smoothCurve(
    lag.map((v) => v - centre),
    weight,
    2,
  );
  return { lags, first: onsets.start + (PHASE_ROWS - 1) / 2 / onsets.rate, step: PHASE_ROWS / onsets.rate };
}

/** A curve read between its rows. */
function bent(curve: Float32Array, rowOf: Float64Array, rows: number): Float32Array {
  const out = new Float32Array(rowOf.length);
  for (let j = 0; j < out.length; j++) {
    const x = rowOf[j];
    const i = Math.floor(x);
    out[j] = i + 1 < rows ? curve[i] + (x - i) * (curve[i + 1] - curve[i]) : 0;
  }
  return out;
}

/** Rows, with fractions, at which straight time has gone on evenly. */
function rowsAt(straight: Float64Array, rate: Hertz, length: number): Float64Array {
  const rowOf = new Float64Array(length);
  const last = straight.length - 2;
  for (let j = 0, r = 0; j < length; j++) {
    const s = straight[0] + j / rate;
    while (r < last && straight[r + 1] <= s) r++;
    rowOf[j] = r + Math.min(1, (s - straight[r]) / (straight[r + 1] - straight[r]));
  }
  return rowOf;
}

function warp(onsets: OnsetCurves, straight: Float64Array, pulse: Hertz): StraightTime {
  const { rate, start, rows } = onsets;
  const length = Math.max(1, Math.floor((straight[rows - 1] - straight[0]) * rate) + 1);
  const first = straight[0];
  const rowOf = rowsAt(straight, rate, length);
  const bend = (curve: Float32Array) => bent(curve, rowOf, rows);
  const toTime = (s: Seconds) => {
    const x = (s - first) * rate;
    if (x <= 0) return start + x / rate;
    if (x >= length - 1) return start + (rowOf[length - 1] + x - length + 1) / rate;
    const i = Math.floor(x);
    return start + (rowOf[i] + (x - i) * (rowOf[i + 1] - rowOf[i])) / rate;
  };
  const toStraight = (t: Seconds) => {
    const x = (t - start) * rate;
    if (x <= 0) return first + x / rate;
    if (x >= rows - 1) return straight[rows - 1] + (x - rows + 1) / rate;
    const i = Math.floor(x);
    return straight[i] + (x - i) * (straight[i + 1] - straight[i]);
  };
  return {
    onsets: { rate, start: first, rows: length, bands: onsets.bands.map(bend), all: bend(onsets.all) },
    pulse,
    toTime,
    toStraight,
  };
}
