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
  ...FINE_RANGES.flatMap((r) => [
    `${r}, mean rise`,
    `${r}, rise of one step in four`,
    `${r}, rise of every other step`,
  ]),
];

/** How a bar is struck: how its onsets are spread over its steps, whether they come back, and how steeply they rise. */
export function struckCues(frontEnd: FrontEnd, grid: Grid, steps: StepTable, bar: number): number[] {
  const out: number[] = [];
  for (const [, first, last] of RANGES) {
    const rhythm = rhythmOf(steps, bar, first, last);
    const sorted = [...rhythm].sort((a, b) => b - a);
    const total = sum(rhythm) + LITTLE;
    const half = rhythm.length >> 1;
    const nearBy = [-2, -1, 1, 2].map((d) => rhythmOf(steps, bar + d, first, last));
    out.push(
      sorted[0] / total,
      sum(sorted.slice(0, Math.ceil(rhythm.length / 4))) / total,
      rhythm.filter((v) => v > STROKE).length / rhythm.length,
      Math.max(0, ...nearBy.map((other) => likeness(rhythm, other))),
      Math.max(-1, ...nearBy.map((other) => correlation(rhythm, other))),
      correlation(rhythm.slice(0, half), rhythm.slice(half, 2 * half)),
    );
  }
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
