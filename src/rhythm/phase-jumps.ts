import { borrowKernels } from '../signal/index.js';
import type { Fraction, Seconds } from '../units/index.js';
import { atPlaces } from './beat-places.js';
import type { OnsetCurves } from './onsets.js';
import { lastingJumps, type PhaseSegment } from './lasting-jumps.js';
import { addLikeness } from './loops.js';

/** Places in the beat that the phase can take, and at which the rhythm is compared. */
const PLACES = 24;
const STEPS = PLACES;
/** Onsets above this count as this. */
const LOUDEST = 8;
/** Nats for one unit of log-likelihood: neighbouring rows tell the same thing and music repeats itself. */
const EVIDENCE = 0.06;
/** Nats for a jump of the phase: one in a few thousand beats. */
const JUMP = 14;

/**
 * Finds where the music leaves a steady grid for another phase of the same tempo, as after a half-beat edit: Viterbi over
 * the phase of each beat, the onsets of a beat being compared with what the whole track's beats look like there. Only jumps
 * that last are kept: see `lastingJumps`.
 * @returns one segment with shift 0 when there is no jump
 */
export function phaseSegments(
  onsets: OnsetCurves,
  bands: readonly Float32Array[],
  beats: ArrayLike<Seconds>,
): PhaseSegment[] {
  const n = beats.length - 1;
  if (n < 32) return [{ beat: 0, shift: 0 }];
  // What is heard at each place of each beat; one beat more than there are so that shifted beats can be read.
  const heard = bands.map((band) => {
    const rows = new Float32Array((n + 1) * STEPS);
    rows.set(atPlaces(band, onsets, beats, STEPS, LOUDEST));
    return rows;
  });
  // A jump in the middle blurs a template of the whole track: parts of it compete.
  const parts: readonly (readonly [number, number])[] = [
    [0, n],
    [0, n >> 1],
    [n >> 1, n],
  ];
  let best: { path: Int16Array; score: number } | null = null;
  for (const [from, to] of parts) {
    let path: Int16Array = new Int16Array(n);
    let score = 0;
    for (let round = 0; round < 2; round++) {
      const emission = match(heard, template(heard, path, from, round === 0 ? to : n, n), n);
      ({ path, score } = viterbi(emission, n));
      if (round === 0 && from === 0 && to === n && path.every((p) => p === path[0])) break;
    }
    if (!best || score > best.score + 3) best = { path, score };
  }
  const segments = toSegments(best!.path, n);
  if (segments.length === 1) return segments;
  const emission = match(heard, template(heard, best!.path, 0, n, n), n);
  const fit = (from: number, to: number, shift: Fraction) => {
    let sum = 0;
    for (let b = from; b < to; b++) sum += emission[b * PLACES + Math.round(shift * PLACES)];
    return sum / Math.max(to - from, 1);
  };
  return lastingJumps(segments, n, fit);
}

/** Log of what a beat looks like at each place, over the beats of a range taken at their phases. */
function template(
  heard: readonly Float32Array[],
  path: Int16Array,
  from: number,
  to: number,
  n: number,
): Float64Array[] {
  return heard.map((rows) => {
    const sums = summed(rows, path, from, Math.min(to, n));
    const total = sums.reduce((a, b) => a + b, 0) / STEPS || 1;
    const logs = sums.map((s) => Math.log(0.1 + (0.9 * s) / total));
    const mean = logs.reduce((a, b) => a + b, 0) / STEPS;
    return logs.map((l) => l - mean);
  });
}

/** Sums over some beats at each place from their phases on. */
function summed(rows: Float32Array, path: Int16Array, from: number, to: number): Float64Array {
  const kernels = borrowKernels(4 * rows.length + 2 * path.length + 8 * STEPS);
  const [values, sums] = [kernels.floats(rows.length), kernels.doubles(STEPS)];
  const { at, view } = kernels.integers(Math.ceil(path.length / 2));
  values.view.set(rows);
  new Int16Array(view.buffer, at, path.length).set(path);
  kernels.loops.along(values.at, at, from, to, STEPS, sums.at);
  return sums.view.slice();
}

/** Agreement of each beat with the template at each phase: emission[b * PLACES + p]. */
function match(heard: readonly Float32Array[], templates: readonly Float64Array[], n: number): Float64Array {
  const emission = new Float64Array(n * PLACES);
  heard.forEach((rows, band) => addLikeness(rows, templates[band], STEPS, EVIDENCE, emission));
  return emission;
}

/** The likeliest phases: they stay, or jump for `JUMP`. */
function viterbi(emission: Float64Array, n: number): { path: Int16Array; score: number } {
  const kernels = borrowKernels(8 * (emission.length + PLACES) + 2 * n * PLACES);
  const [evidence, score] = [kernels.doubles(emission), kernels.doubles(PLACES)];
  const { at, view } = kernels.integers(Math.ceil((n * PLACES) / 2));
  score.view.fill(-JUMP, 1);
  kernels.loops.staying(evidence.at, n, PLACES, JUMP, score.at, at);
  const back = new Int16Array(view.buffer, at, n * PLACES);
  let p = score.view.indexOf(Math.max(...score.view));
  const total = score.view[p];
  const path = new Int16Array(n);
  for (let b = n - 1; b >= 0; b--) {
    path[b] = p;
    p = back[b * PLACES + p];
  }
  return { path, score: total };
}

function toSegments(path: Int16Array, n: number): PhaseSegment[] {
  const segments: PhaseSegment[] = [];
  for (let b = 0; b < n; b++) {
    if (b === 0 || path[b] !== path[b - 1]) segments.push({ beat: b, shift: path[b] / PLACES });
  }
  return segments;
}
