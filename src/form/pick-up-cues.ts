import type { Grid } from '../rhythm/index.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Ranges in which a pick-up may sound (groups of frequencies, last exclusive). */
const RANGES: readonly (readonly [name: string, first: number, last: number])[] = [
  ['sub', 0, 1],
  ['kick', 1, 2],
  ['bass', 2, 3],
  ['low middle', 3, 4],
  ['middle', 4, 6],
  ['high middle', 6, 8],
  ['presence', 8, 10],
  ['treble', 10, GROUPS],
];

/** Level of silence under the loud end of a group. */
const FLOOR_POWER = 1e-4;

/** Bars before the last one that tell what is usual on its beats. */
const USUAL_BARS = 3;

/** Names of the cues, in their order; weights rest on it. */
export const PICK_UP_CUES: readonly string[] = [
  ...RANGES.flatMap(([r]) => [
    `${r} excess`,
    `${r} excess before`,
    `${r} step`,
    `${r} against after`,
    `${r} flux excess`,
    `${r} rise over the one`,
  ]),
  ...['level', 'flux'].flatMap((of) => [
    `what enters, share of its ${of} heard`,
    `what enters, share of its ${of} heard before`,
    `what enters, likeness of ${of}`,
    `what enters, likeness of ${of} before`,
  ]),
  'one beat',
  'two beats',
  'share of the bar',
];

/**
 * Cues for "something starts `beats` beats before the one of bar `b`": the last beats of the bar before, against the same
 * beats of earlier bars, the beats just before, and the bars after.
 * @param b index of a bar, at least 1
 * @param beats from 1 to one less than the beats of the bar before
 */
export function pickUpCues(grid: Grid, steps: StepTable, b: number, beats: number): number[] {
  const end = steps.barRow[b];
  const length = grid.bars[b - 1].beats * STEPS_PER_BEAT;
  const early = beats * STEPS_PER_BEAT;
  const out: number[] = [];
  const bar = grid.metre.beatsPerBar * STEPS_PER_BEAT;
  for (const [, first, last] of RANGES) {
    const level = (from: number, to: number) => meanLevel(steps, from, to, first, last);
    const flux = (from: number, to: number) => meanFlux(steps, from, to, first, last);
    const usual = (from: number, to: number, of: (a: number, z: number) => number) => {
      const values: number[] = [];
      for (let k = 1; k <= USUAL_BARS; k++) if (from - k * bar >= 0) values.push(of(from - k * bar, to - k * bar));
      return values.length > 0 ? values.sort((x, y) => x - y)[values.length >> 1] : of(from, to);
    };
    const inside = level(end - early, end);
    const before = level(end - length, end - early);
    out.push(
      inside - usual(end - early, end, level),
      before - usual(end - length, end - early, level),
      level(end - early, end - early + STEPS_PER_BEAT) - level(end - early - STEPS_PER_BEAT, end - early),
      inside - (level(end - early + bar, end + bar) + level(end - early + 2 * bar, end + 2 * bar)) / 2,
      flux(end - early, end) - usual(end - early, end, flux),
      level(end, end + bar) - usual(end, end + bar, level),
    );
  }
  for (const mean of [meanLevel, meanFlux]) out.push(...heardOfEntry(steps, end, length, early, bar, mean));
  out.push(beats === 1 ? 1 : 0, beats === 2 ? 1 : 0, early / length);
  return out;
}

const known = new WeakMap<StepTable, Float64Array>();

/** Decibels of the power on every step: once a track, as most are read many times. */
function decibelsOf(steps: StepTable): Float64Array {
  let levels = known.get(steps);
  if (!levels) known.set(steps, (levels = inDecibels(steps.power)));
  return levels;
}

function inDecibels(powers: Float32Array): Float64Array {
  const levels = new Float64Array(powers.length);
  for (let i = 0; i < powers.length; i++) levels[i] = 10 * Math.log10(powers[i] + FLOOR_POWER);
  return levels;
}

/** Rises of a group smaller than this (dB, or flux a step) are none. */
const RISE_NORM = { level: 3, flux: 0.02 };

/**
 * How much of what enters with the one is heard in the beats of the pick-up, and in those before them: which groups rise over the
 * one, against which groups lie above what is usual on the same beats. A share of the rise, and the cosine between the two.
 */
function heardOfEntry(
  steps: StepTable,
  end: number,
  length: number,
  early: number,
  bar: number,
  mean: typeof meanLevel,
): number[] {
  const norm = mean === meanLevel ? RISE_NORM.level : RISE_NORM.flux;
  const over = (from: number, to: number, g: number, back: readonly number[]) => {
    const values = back
      .filter((k) => from - k * bar >= 0)
      .map((k) => mean(steps, from - k * bar, to - k * bar, g, g + 1));
    return values.length > 0 ? values.sort((x, y) => x - y)[values.length >> 1] : mean(steps, from, to, g, g + 1);
  };
  const out: number[] = [];
  for (const [from, to] of [
    [end - early, end],
    [end - length, end - early],
  ]) {
    let product = 0;
    let rises = 0;
    let excesses = 0;
    for (let g = 0; g < GROUPS; g++) {
      const usual = over(from, to, g, [1, 2, 3]);
      const rise = over(from, to, g, [-1, -2]) - usual;
      const excess = mean(steps, from, to, g, g + 1) - usual;
      product += Math.max(rise, 0) * excess;
      rises += Math.max(rise, 0) ** 2;
      excesses += excess * excess;
    }
    const share = product / (rises + GROUPS * norm * norm);
    out.push(Math.max(-1, Math.min(2, share)), product / Math.sqrt((rises + norm * norm) * (excesses + norm * norm)));
  }
  return [out[0], out[2], out[1], out[3]];
}

function meanLevel(steps: StepTable, from: number, to: number, first: number, last: number): number {
  return mean(decibelsOf(steps), from, to, first, last, 10 * Math.log10(FLOOR_POWER));
}

function meanFlux(steps: StepTable, from: number, to: number, first: number, last: number): number {
  return mean(steps.flux, from, to, first, last, 0);
}

/** Mean of some groups over some steps, or what stands for it where there are none. */
function mean(
  table: Float32Array | Float64Array,
  from: number,
  to: number,
  first: number,
  last: number,
  none: number,
): number {
  const start = Math.max(from, 0);
  const end = Math.min(to, table.length / GROUPS);
  let sum = 0;
  for (let r = start; r < end; r++) for (let g = first; g < last; g++) sum += table[r * GROUPS + g];
  return end > start ? sum / ((end - start) * (last - first)) : none;
}
