import type { Hertz, Seconds } from '../units/index.js';
import { bandColumns, borrowKernels, type FrontEnd } from '../signal/index.js';
import { logPowers, type LogPowers } from './log-powers.js';
import { risesOf } from './loops.js';

/** The four bands in which onsets are kept apart (Hz): kick and bass, body of snare and harmony, presence, hats. */
export const ONSET_BANDS: readonly (readonly [Hertz, Hertz])[] = [
  [20, 150],
  [150, 800],
  [800, 5000],
  [5000, 16_000],
];

/** Rise is measured over this many coarse rows: 20 ms, half the analysis window. */
const RISE_ROWS = 2;

/**
 * Where the window's rise lies against the transient itself, in seconds: measured on single clicks, −10 ms for the
 * two-row difference and the early rise of the 46 ms window.
 */
const ONSET_DELAY: Seconds = 0.002;

/** Onset strength over time, 100 values a second, each curve scaled to mean 1. */
export interface OnsetCurves {
  readonly rate: Hertz;
  readonly start: Seconds;
  readonly rows: number;
  /** One curve a band of ONSET_BANDS. */
  readonly bands: readonly Float32Array[];
  /** All bands together, equally weighted. */
  readonly all: Float32Array;
}

/**
 * Half-wave rectified differences of log-compressed band powers (Böck & Widmer, "Maximum filter vibrato suppression
 * for onset detection", DAFx 2013), each column scaled by its own mean first so that gain changes nothing.
 */
export function onsetCurves(frontEnd: FrontEnd, logs = logPowers(frontEnd.bands)): OnsetCurves {
  const { rows, rate, start } = frontEnd.bands;
  const bands = onsetBands(logs, ONSET_BANDS);
  const all = new Float32Array(rows);
  for (const band of bands) addShare(all, band, bands.length);
  return { rate, start: start - RISE_ROWS / 2 / rate + ONSET_DELAY + 0.01, rows, bands, all };
}

function addShare(all: Float32Array, band: Float32Array, of: number): void {
  for (let r = 0; r < all.length; r++) all[r] += band[r] / of;
}

/** The onset curves of several bands, each scaled to mean 1. */
export function onsetBands(logs: LogPowers, bands: readonly (readonly [Hertz, Hertz])[]): Float32Array[] {
  // The maximum over the neighbouring columns keeps vibrato and glides from counting as onsets.
  const ranges = bands.map(([low, high]) => bandColumns(low, high));
  return risesOf(logs, ranges, RISE_ROWS).map(scaled);
}

/** Brings a curve to mean 1, in place. */
function scaled(curve: Float32Array): Float32Array {
  const kernels = borrowKernels(4 * curve.length);
  const { at, view } = kernels.floats(curve.length);
  view.set(curve);
  kernels.loops.levelled(at, curve.length);
  curve.set(view);
  return curve;
}

/** Linear interpolation of a curve at a time; 0 outside. */
export function sampleAt(curve: Float32Array, rate: Hertz, start: Seconds, time: Seconds): number {
  const x = (time - start) * rate;
  const i = Math.floor(x);
  if (i < 0 || i + 1 >= curve.length) return 0;
  return curve[i] + (x - i) * (curve[i + 1] - curve[i]);
}

/** The curve smoothed by a triangle of 5 rows, so that sampling it between rows loses no peak. */
export function smoothed(curve: Float32Array): Float32Array {
  return smoothInto(curve, new Float32Array(curve.length));
}

/** The same in place, for a curve that is no longer wanted. */
export function smoothedInPlace(curve: Float32Array): Float32Array {
  return smoothInto(curve, curve);
}

function smoothInto(curve: Float32Array, out: Float32Array): Float32Array {
  const kernels = borrowKernels(4 * curve.length);
  const { at, view } = kernels.floats(curve.length);
  view.set(curve);
  kernels.loops.smoothed(at, curve.length);
  out.set(view);
  return out;
}
