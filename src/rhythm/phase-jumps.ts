import type { Fraction, Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { lastingJumps, type PhaseSegment } from './lasting-jumps.js';
import { addLikeness } from './loops.js';
import { sampleAt } from './onsets.js';

/** Places in the beat that the phase can take, and at which the rhythm is compared. */
const PLACES = 24;
const STEPS = PLACES;
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
  // What is heard at each place of each beat; PLACES more than one beat so that shifted beats can be read.
  const heard = bands.map((band) => {
    const rows = new Float32Array((n + 1) * STEPS);
    for (let b = 0; b < n; b++) {
      const step = (beats[b + 1] - beats[b]) / STEPS;
      for (let j = 0; j < STEPS; j++)
        rows[b * STEPS + j] = Math.min(sampleAt(band, onsets.rate, onsets.start, beats[b] + j * step), 8);
    }
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
    const sums = new Float64Array(STEPS);
    for (let b = from; b < Math.min(to, n); b++)
      for (let j = 0; j < STEPS; j++) sums[j] += rows[b * STEPS + path[b] + j] ?? 0;
    const total = sums.reduce((a, b) => a + b, 0) / STEPS || 1;
    const logs = sums.map((s) => Math.log(0.1 + (0.9 * s) / total));
    const mean = logs.reduce((a, b) => a + b, 0) / STEPS;
    return logs.map((l) => l - mean);
  });
}

/** Agreement of each beat with the template at each phase: emission[b * PLACES + p]. */
function match(heard: readonly Float32Array[], templates: readonly Float64Array[], n: number): Float64Array {
  const emission = new Float64Array(n * PLACES);
  heard.forEach((rows, band) => addLikeness(rows, templates[band], STEPS, EVIDENCE, emission));
  return emission;
}

function viterbi(emission: Float64Array, n: number): { path: Int16Array; score: number } {
  let score = new Float64Array(PLACES).fill(-JUMP);
  score[0] = 0;
  const back = new Int16Array(n * PLACES);
  for (let b = 0; b < n; b++) {
    const next = new Float64Array(PLACES);
    let top = 0;
    for (let p = 1; p < PLACES; p++) if (score[p] > score[top]) top = p;
    for (let p = 0; p < PLACES; p++) {
      const jump = score[top] - JUMP > score[p];
      next[p] = (jump ? score[top] - JUMP : score[p]) + emission[b * PLACES + p];
      back[b * PLACES + p] = jump ? top : p;
    }
    score = next;
  }
  let p = score.indexOf(Math.max(...score));
  const total = score[p];
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
