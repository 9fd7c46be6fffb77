import type { FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Ranges in which chords and tunes are struck (groups of frequencies, last exclusive). */
const RANGES: readonly (readonly [name: string, first: number, last: number])[] = [
  ['110–400 Hz', 2, 4],
  ['400–1200 Hz', 4, 6],
  ['1200–3400 Hz', 6, 8],
  ['3400–8000 Hz', 8, 10],
];
/** Columns of the fine energies and what they hold. */
const FINE_RANGES = ['all', 'below 150 Hz', 'above 5 kHz'] as const;

/** Rises of the log power in one step from here on are strokes. */
const STROKE = 0.15;
/** Keeps shares of next to nothing near 0. */
const LITTLE = 0.05;
/** So many bars before and after one are averaged. */
const REACH = 4;
/** Spread of flux that counts as none. */
const LEAST_SPREAD = 1e-3;
/** Level of silence under the loud end of a group. */
const FLOOR_POWER = 1e-4;
/** A stroke rises within this many milliseconds, and lies so near its step. */
const RISE_MS = 8;
const EARLY_MS = 25;
const LATE_MS = 40;

/** Names of the cues, in their order; weights rest on it. */
export const STRUCK_CUES: readonly string[] = [
  ...RANGES.flatMap(([r]) => [
    `${r}, share of the strongest step`,
    `${r}, share of the strongest quarter`,
    `${r}, steps with a stroke`,
    `${r}, likeness to the rhythm of a bar near by`,
    `${r}, correlation with the rhythm of a bar near by`,
    `${r}, correlation of the halves of the bar`,
  ]),
  ...RANGES.flatMap(([r]) => [
    `${r}, strongest step of the mean rhythm`,
    `${r}, strongest quarter of the mean rhythm`,
    `${r}, steps that stand out of the mean rhythm`,
    `${r}, how far the steps differ against how far the bars do`,
    `${r}, rise of the mean level from step to step`,
    `${r}, strongest rise of the mean level`,
  ]),
  ...FINE_RANGES.flatMap((r) => [
    `${r}, mean rise`,
    `${r}, rise of one step in four`,
    `${r}, rise of every other step`,
  ]),
];

/**
 * How a bar is struck: how its onsets are spread over its steps, whether they come back, how they lie on the mean of the bars
 * around it, and how steeply they rise.
 * @param first of the passage that the bar is part of: nothing outside it is looked at for the mean
 * @param last bar after the passage
 */
export function struckCues(
  frontEnd: FrontEnd,
  grid: Grid,
  steps: StepTable,
  bar: number,
  first = bar,
  last = bar + 1,
): number[] {
  const out: number[] = [];
  for (const [, low, high] of RANGES) {
    const rhythm = rhythmOf(steps, bar, low, high);
    const sorted = [...rhythm].sort((a, b) => b - a);
    const total = sum(rhythm) + LITTLE;
    const half = rhythm.length >> 1;
    const nearBy = [-2, -1, 1, 2].map((d) => rhythmOf(steps, bar + d, low, high));
    out.push(
      sorted[0] / total,
      sum(sorted.slice(0, Math.ceil(rhythm.length / 4))) / total,
      rhythm.filter((v) => v > STROKE).length / rhythm.length,
      Math.max(0, ...nearBy.map((other) => likeness(rhythm, other))),
      Math.max(-1, ...nearBy.map((other) => correlation(rhythm, other))),
      correlation(rhythm.slice(0, half), rhythm.slice(half, 2 * half)),
    );
  }
  const around = barsAround(grid, bar, first, last);
  for (const [, low, high] of RANGES) out.push(...meanRhythm(steps, around, low, high));
  FINE_RANGES.forEach((_, column) => {
    const rises = stepRises(frontEnd, grid, bar, column).sort((a, b) => b - a);
    out.push(sum(rises) / rises.length, rises[rises.length >> 2], rises[rises.length >> 1]);
  });
  return out;
}

/** Summed flux on each step of a bar; empty outside the track. */
function rhythmOf({ flux, barRow }: StepTable, bar: number, first: number, last: number): number[] {
  if (bar < 0 || bar + 1 >= barRow.length) return [];
  return Array.from({ length: barRow[bar + 1] - barRow[bar] }, (_, i) => {
    let s = 0;
    for (let g = first; g < last; g++) s += flux[(barRow[bar] + i) * GROUPS + g];
    return s;
  });
}

/** Bars of a passage near one of them, of as many beats; the first, over which what came before may ring, where there are others. */
function barsAround({ bars }: Grid, bar: number, first: number, last: number): number[] {
  const out: number[] = [];
  for (let b = Math.max(first, bar - REACH); b < Math.min(last, bar + REACH + 1); b++)
    if (bars[b].beats === bars[bar].beats && (b > first || b === bar)) out.push(b);
  return out;
}

/**
 * The rhythm that some bars have in common: what is struck stands out of the mean of the bars, what only wavers, or what a
 * voice sings, is a little everywhere. The first step, on which chords change, is left out.
 */
function meanRhythm(steps: StepTable, bars: readonly number[], low: number, high: number): number[] {
  const rhythms = bars.map((b) => rhythmOf(steps, b, low, high));
  const levels = bars.map((b) => levelsOf(steps, b, low, high));
  const over = (of: readonly (readonly number[])[]) => of[0].map((_, i) => sum(of.map((r) => r[i])) / of.length);
  const mean = over(rhythms).slice(1);
  const sorted = [...mean].sort((a, b) => b - a);
  const middle = sorted[sorted.length >> 1];
  const centre = sum(mean) / mean.length;
  const between = sum(mean.map((v) => (v - centre) ** 2)) / mean.length;
  const within =
    sum(rhythms.map((r) => sum(r.slice(1).map((v, i) => (v - mean[i]) ** 2)))) / (rhythms.length * mean.length);
  const level = over(levels);
  const rises = level.slice(1).map((v, i) => Math.max(0, v - level[i]));
  const quarter = Math.ceil(sorted.length / 4);
  return [
    sorted[0] - middle,
    sum(sorted.slice(0, quarter)) / quarter - middle,
    mean.filter((v) => v > middle + STROKE).length / mean.length,
    Math.log((between + LEAST_SPREAD) / (within / rhythms.length + LEAST_SPREAD)),
    sum(rises) / rises.length,
    Math.max(...rises.slice(1)),
  ];
}

/** Mean level (dB) on each step of a bar. */
function levelsOf({ power, barRow }: StepTable, bar: number, low: number, high: number): number[] {
  return Array.from({ length: barRow[bar + 1] - barRow[bar] }, (_, i) => {
    let s = 0;
    for (let g = low; g < high; g++) s += 10 * Math.log10(power[(barRow[bar] + i) * GROUPS + g] + FLOOR_POWER);
    return s / (high - low);
  });
}

/** Cosine similarity of two rhythms; 0 for bars of different lengths. */
function likeness(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) return 0;
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i++) {
    ab += a[i] * b[i];
    aa += a[i] * a[i];
    bb += b[i] * b[i];
  }
  return ab / Math.sqrt(aa * bb + 1e-6);
}

/** Likeness of two rhythms without what they have in common on every step: what is held rises a little all the time. */
function correlation(a: readonly number[], b: readonly number[]): number {
  const centred = (values: readonly number[]) => values.map((v) => v - sum(values) / values.length);
  return likeness(centred(a), centred(b));
}

/** The steepest rise (dB) of a fine energy around each step of a bar. */
function stepRises(frontEnd: FrontEnd, grid: Grid, index: number, column: number): number[] {
  const { values, rows, rate, columns } = frontEnd.fine;
  const floor = (frontEnd.meanPower * 44_100 * 0.01) / rate;
  const bar = grid.bars[index];
  const energy = (at: number) => {
    let s = 0;
    for (let k = 0; k < RISE_MS; k++) s += values[(at + k) * columns + column];
    return s / RISE_MS + floor;
  };
  return Array.from({ length: bar.beats * STEPS_PER_BEAT }, (_, i) => {
    const beat = Math.floor(i / STEPS_PER_BEAT);
    const from = grid.beats[bar.firstBeat + beat];
    const to = beat + 1 < bar.beats ? grid.beats[bar.firstBeat + beat + 1] : bar.end;
    const centre = Math.round((from + ((to - from) * (i % STEPS_PER_BEAT)) / STEPS_PER_BEAT) * rate);
    let best = 0;
    for (let t = centre - EARLY_MS; t < centre + LATE_MS; t += 2)
      if (t >= RISE_MS && t + RISE_MS < rows) best = Math.max(best, 10 * Math.log10(energy(t) / energy(t - RISE_MS)));
    return best;
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
