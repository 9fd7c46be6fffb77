import type { Fraction, Hertz, Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { sampleAt } from './onsets.js';
import type { TempoFit } from './refine-tempo.js';

/** A reading of the beat: one tempo at one phase, laid out over the whole track. */
export interface Reading {
  readonly fit: TempoFit;
  readonly frequency: Hertz;
  /** Time of one beat, in the first period after 0. */
  readonly phase: Seconds;
  /** Beat times from the start of the track to its end. */
  readonly beats: Float64Array;
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
  const fold = Float64Array.from({ length: FOLD }, (_, j) => {
    let sum = 0;
    for (const b of grid) {
      const t = b + (j / FOLD) * period;
      sum += sampleAt(all, onsets.rate, onsets.start, t) + sampleAt(low, onsets.rate, onsets.start, t);
    }
    return sum / grid.length;
  });
  const peaks: { at: number; height: number }[] = [];
  for (let j = 0; j < FOLD; j++) {
    const a = fold[(j + FOLD - 1) % FOLD];
    const c = fold[(j + 1) % FOLD];
    if (fold[j] < a || fold[j] < c) continue;
    const bend = a - 2 * fold[j] + c;
    peaks.push({ at: (j + (bend < 0 ? (a - c) / (2 * bend) : 0)) / FOLD, height: fold[j] });
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
  }));
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
  return Float64Array.from({ length: count }, (_, i) => phase + (first + i) * period);
}
