import type { FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import { countOf, describeTables, fillColumn, logLevels, quantile, QUANTILES, TABLE_COLUMNS } from './bar-tables.js';
import { CHORD_CUES, chordEar } from './chord-cues.js';
import { GROUPS, GROUP_EDGES, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Relative power below this counts as silence (−40 dB under the loud end of its group). */
const FLOOR = 1e-4;

/** Groups 0 and 1: below 110 Hz, where a kick rises fast. */
const KICK_GROUPS = [0, 1] as const;
const CLICK_GROUPS = [5, 6, 7] as const;

/** Cues of each bar from which the layers are judged: `values[bar * columns + cue]`. */
export interface LayerCues {
  readonly values: Float32Array;
  readonly columns: number;
  readonly names: readonly string[];
}

/** Names of the cues in their order; weights are fitted on all of them, or on those before the chords. */
export const LAYER_CUES: readonly string[] = [
  ...QUANTILES.flatMap((q) => groupNames().map((g) => `level ${q * 100} % ${g}`)),
  ...groupNames().map((g) => `tail ${g}`),
  ...groupNames().map((g) => `flux ${g}`),
  ...groupNames().map((g) => `beat flux ${g}`),
  'kick strokes a beat',
  'kick on the beats',
  'kick with click',
  'kick attack',
  'backbeat',
  'high strokes a beat',
  'chroma peak',
  'chroma level',
  'side level',
  'level below 110 Hz in the mix',
  'level above 5.5 kHz in the mix',
  ...CHORD_CUES,
];

/** So many of them, the first, know nothing of chords: from those the layers are judged that phrases and sections rest on. */
export const PLAIN_CUES = LAYER_CUES.length - CHORD_CUES.length;

function groupNames(): string[] {
  return Array.from({ length: GROUPS }, (_, g) => `${GROUP_EDGES[g]}–${GROUP_EDGES[g + 1]} Hz`);
}

/** Describes every bar by levels, onsets and a few shapes; all are relative to the track. */
export function layerCues(frontEnd: FrontEnd, grid: Grid, steps: StepTable): LayerCues {
  const columns = LAYER_CUES.length;
  const bars = grid.bars.length;
  const decibels = logLevels(steps.power, 1, FLOOR, 10);
  const values = describeTables(steps, decibels, usualFlux(steps), columns);
  const strokes = strokeTables(steps);
  const chords = chordEar(frontEnd);
  const reference = steps.reference.reduce((a, b) => a + b, 0);
  const mix = (from: number, to: number) =>
    10 * Math.log10(steps.reference.slice(from, to).reduce((a, b) => a + b, 0) / reference + FLOOR);
  const lowInMix = mix(0, 2);
  const highInMix = mix(9, GROUPS);
  for (let b = 0; b < bars; b++) {
    const from = steps.barRow[b];
    const to = steps.barRow[b + 1];
    const beats = (to - from) / STEPS_PER_BEAT;
    let at = b * columns + TABLE_COLUMNS;
    values[at++] = countOf(strokes.kick, from, to) / beats;
    values[at++] = onBeats(strokes.kick, from, to);
    values[at++] = clickedKicks(steps, strokes.kick, from, to);
    values[at++] = kickAttack(frontEnd, grid, b);
    values[at++] = backbeat(steps, from, to);
    values[at++] = countOf(strokes.high, from, to) / beats;
    const bar = grid.bars[b];
    const chroma = chromaOf(frontEnd, bar.start, bar.end);
    values[at++] = chroma.peak;
    values[at++] = chroma.level;
    values[at++] = sideLevel(frontEnd, bar.start, bar.end);
    values[at++] = lowInMix;
    values[at++] = highInMix;
    values.set(chords(bar.start, bar.end), at);
  }
  return { values, columns, names: LAYER_CUES };
}

/** Steps on which a kick-like or a high stroke falls: flux above half the track's 95th percentile. */
function strokeTables(steps: StepTable): { kick: Uint8Array; high: Uint8Array } {
  const table = (groups: readonly number[]) => {
    const sum = new Float32Array(steps.rows);
    for (const g of groups) addColumn(sum, steps.flux, g);
    const limit = steps.rows > 0 ? quantile(sum, 0.95) / 2 : 0;
    return Uint8Array.from(sum, (v) => (v > limit ? 1 : 0));
  };
  return { kick: table(KICK_GROUPS), high: table([8, 9, 10, 11]) };
}

function addColumn(sum: Float32Array, table: Float32Array, g: number): void {
  for (let r = 0, at = g; r < sum.length; r++, at += GROUPS) sum[r] += table[at];
}

/** A high percentile of flux a step in each group over the track's steps, never 0. */
function usualFlux(steps: StepTable): Float64Array {
  const out = new Float64Array(GROUPS);
  const column = new Float32Array(steps.rows);
  for (let g = 0; g < GROUPS; g++) {
    fillColumn(column, steps.flux, 0, g);
    out[g] = Math.max(steps.rows > 0 ? quantile(column, 0.9) : 0, 0.05);
  }
  return out;
}

function onBeats(strokes: Uint8Array, from: number, to: number): number {
  let hits = 0;
  for (let r = from; r < to; r += STEPS_PER_BEAT) hits += strokes[r];
  return (hits * STEPS_PER_BEAT) / (to - from);
}

/** Share of the bar's beats with a low stroke that comes with a rise between 0.7 and 3.4 kHz, as a beater gives. */
function clickedKicks(steps: StepTable, strokes: Uint8Array, from: number, to: number): number {
  let sum = 0;
  for (let r = from; r < to; r++)
    if (strokes[r]) for (const g of CLICK_GROUPS) sum += Math.min(steps.flux[r * GROUPS + g], 1);
  return (sum * STEPS_PER_BEAT) / (to - from);
}

/** Mean over the beats of the steepest 8 ms rise (dB) of energy below 150 Hz within 40 ms of the beat. */
function kickAttack(frontEnd: FrontEnd, grid: Grid, b: number): number {
  const { values, rows, rate, columns } = frontEnd.fine;
  const bar = grid.bars[b];
  const floor = (frontEnd.meanPower * 44_100 * 0.01) / rate;
  let sum = 0;
  for (let k = 0; k < bar.beats; k++) {
    const centre = Math.round(grid.beats[bar.firstBeat + k] * rate);
    const best = steepest(values, columns, Math.max(centre - 30, 4), Math.min(centre + 30, rows - 8), floor);
    sum += Math.max(0, 10 * Math.log10(best));
  }
  return sum / bar.beats;
}

/** The largest ratio of what comes after an instant to what was before; 1 where nothing rises. */
function steepest(values: Float32Array, columns: number, from: number, to: number, floor: number): number {
  let best = 1;
  for (let t = from; t < to; t++) {
    const at = t * columns + 1;
    const before = values[at - 4 * columns] + values[at - 2 * columns] + values[at];
    const after = values[at + 4 * columns] + values[at + 6 * columns] + values[at + 8 * columns];
    const ratio = (after + floor) / (before + floor);
    if (ratio > best) best = ratio;
  }
  return best;
}

/** Flux between 400 Hz and 5.5 kHz on beats 2 and 4 less that on 1 and 3. */
function backbeat(steps: StepTable, from: number, to: number): number {
  let sum = 0;
  for (let r = from, beat = 0; r < to; r += STEPS_PER_BEAT, beat++)
    for (let g = 4; g < 9; g++) sum += (beat % 2 === 1 ? 1 : -1) * steps.flux[r * GROUPS + g];
  return sum;
}

function chromaOf(frontEnd: FrontEnd, start: number, end: number): { peak: number; level: number } {
  const { values, rate, rows } = frontEnd.chroma;
  const sum = new Float64Array(12);
  const first = Math.max(0, Math.ceil(start * rate));
  const last = Math.min(rows, Math.max(Math.ceil(end * rate), first + 1));
  for (let r = first; r < last; r++) addTwelve(sum, values, r * 12);
  let total = 0;
  let highest = 0;
  for (let c = 0; c < 12; c++) {
    total += sum[c];
    highest = Math.max(highest, sum[c]);
  }
  if (total <= 0) return { peak: 0, level: -40 };
  const level = 10 * Math.log10(total / (last - first) / frontEnd.meanPower + FLOOR);
  return { peak: highest / total, level };
}

function addTwelve(sum: Float64Array, values: Float32Array, at: number): void {
  for (let c = 0; c < 12; c++) sum[c] += values[at + c];
}

/** Side against middle power in dB; −40 for mono. */
function sideLevel(frontEnd: FrontEnd, start: number, end: number): number {
  const { values, rate, rows } = frontEnd.stereo;
  let middle = 0;
  let side = 0;
  for (let r = Math.max(0, Math.ceil(start * rate)); r < Math.min(rows, end * rate); r++) {
    middle += values[2 * r];
    side += values[2 * r + 1];
  }
  return 10 * Math.log10(side / (middle + frontEnd.meanPower * 1e-3) + FLOOR);
}
