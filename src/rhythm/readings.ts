import type { Fraction, Hertz, Seconds } from '../units/index.js';
import { foldLater } from './beat-places.js';
import type { OnsetCurves } from './onsets.js';
import type { TempoFit } from './refine-tempo.js';

/** A reading of the beat: one tempo at one phase, laid out over the whole track. */
export interface Reading {
  readonly fit: TempoFit;
  readonly frequency: Hertz;
  /** Time of one beat, in the first period after 0. */
  readonly phase: Seconds;
  /** Beat times from the start of the track to its end. */
  readonly beats: Float64Array;
  /** How much earlier the attacks of these beats lie than their weight (s; negative: later). */
  readonly attack: Seconds;
}

/** Places in the beat at which the fold is looked at. */
const FOLD = 48;

/** Phases kept for each tempo. */
const PHASES = 3;

/** A beat that a person points at lies within this of the real one. */
const BEAT_AT_REACH: Seconds = 0.07;

/** Two phases are at least this share of a beat apart. */
const APART: Fraction = 0.12;

/** The likeliest phases of a tempo: the highest peaks of the onsets folded on the beat, low band counted twice. */
export function readings(
  onsets: OnsetCurves,
  low: Float32Array,
  all: Float32Array,
  fit: TempoFit,
  end: Seconds,
  beatAt?: Seconds,
): Reading[] {
  const period = 1 / fit.frequency;
  const grid = regularBeats(period, 0, end);
  const lowFold = foldOf(onsets, low, grid, period);
  const allFold = foldOf(onsets, all, grid, period);
  const fold = allFold.map((v, j) => v + lowFold[j]);
  const sharp = allFold.map((v, j) => (4 * v - lowFold[j]) / 3);
  const peaks: { at: number; height: number }[] = [];
  for (let j = 0; j < FOLD; j++) {
    if (fold[j] < fold[(j + FOLD - 1) % FOLD] || fold[j] < fold[(j + 1) % FOLD]) continue;
    peaks.push({ at: vertex(fold, j), height: fold[j] });
  }
  peaks.sort((p, q) => q.height - p.height);
  const kept: number[] = [];
  const add = (at: number) => {
    const wrapped = at - Math.floor(at);
    if (kept.every((k) => circular(k, wrapped) >= APART)) kept.push(wrapped);
  };
  for (const p of peaks) if (kept.length < PHASES) add(p.at);
  // The off-beat of the best peak always competes: beat and off-beat swapped is the commonest mistake.
  if (kept.length > 0) add(kept[0] + 0.5);
  const bound = beatAt === undefined ? kept : nearPhase(kept, beatAt / period, Math.min(BEAT_AT_REACH / period, 0.2));
  return bound.map((k) => ({
    fit,
    frequency: fit.frequency,
    phase: k * period,
    beats: regularBeats(period, k * period, end),
    attack: (k - attackBefore(sharp, k, period)) * period,
  }));
}

/** Mean of a curve at each place of the beat. */
function foldOf(onsets: OnsetCurves, curve: Float32Array, grid: Float64Array, period: Seconds): Float64Array {
  const places = Float64Array.from({ length: FOLD }, (_, j) => (j / FOLD) * period);
  return foldLater(curve, onsets, grid, places).map((sum) => sum / Math.max(grid.length, 1));
}

/** How far a low drum's weight may follow its attack, and how far the attack may follow the peak (s). */
const ATTACK_BEFORE: Seconds = 0.055;
const ATTACK_AFTER: Seconds = 0.012;

/**
 * Some kicks put their weight tens of milliseconds after their attack: near a peak of all bands the sharpest rise above
 * 150 Hz is the beat, if there is one. Readings compete where their weight lies, which is the steadier place (held-out log
 * loss of the choice .40 against .46), and only the chosen one is moved to its attack.
 */
function attackBefore(sharp: Float64Array, at: Fraction, period: Seconds): Fraction {
  const from = Math.ceil((at - ATTACK_BEFORE / period) * FOLD);
  const to = Math.floor((at + ATTACK_AFTER / period) * FOLD);
  let best = -1;
  for (let j = from; j <= to; j++) {
    const i = (j + FOLD) % FOLD;
    const peak = sharp[i] >= sharp[(i + FOLD - 1) % FOLD] && sharp[i] >= sharp[(i + 1) % FOLD];
    if (peak && sharp[i] > CLEAR_ATTACK && (best < 0 || sharp[i] > sharp[best])) best = i;
  }
  if (best < 0) return at;
  const attack = vertex(sharp, best);
  return attack + Math.round(at - attack);
}

/** An attack counts from this height on; a fold without rhythm is 1 everywhere. */
const CLEAR_ATTACK = 1.5;

/** Place of a peak between bins, by a parabola. */
function vertex(fold: Float64Array, j: number): Fraction {
  const a = fold[(j + FOLD - 1) % FOLD];
  const c = fold[(j + 1) % FOLD];
  const bend = a - 2 * fold[j] + c;
  return (j + (bend < 0 ? Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : 0)) / FOLD;
}

/** The phases that put a beat where a person heard one; that place itself when none does. */
function nearPhase(phases: readonly Fraction[], wanted: Fraction, reach: Fraction): Fraction[] {
  const near = phases.filter((p) => circular(p, wanted) <= reach);
  return near.length > 0 ? near : [wanted - Math.floor(wanted)];
}

/** Distance on a circle of circumference 1. */
export function circular(a: Fraction, b: Fraction): Fraction {
  const d = Math.abs(a - b) % 1;
  return Math.min(d, 1 - d);
}

/** Every beat of a steady grid in [0, end). */
export function regularBeats(period: Seconds, phase: Seconds, end: Seconds): Float64Array {
  const first = Math.ceil((-phase - 1e-9) / period);
  const count = Math.max(0, Math.ceil((end - phase) / period - first - 1e-9));
  const beats = new Float64Array(count);
  for (let i = 0; i < count; i++) beats[i] = phase + (first + i) * period;
  return beats;
}
