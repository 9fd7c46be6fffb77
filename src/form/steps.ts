import type { FrontEnd } from '../signal/index.js';
import { BAND_COUNT, BAND_EDGES } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import type { Hertz } from '../units/index.js';

/** Edges of the frequency groups in which the form is judged: sub-bass and kick, bass, then about two an octave. */
export const GROUP_EDGES: readonly Hertz[] = [10, 60, 110, 220, 400, 700, 1200, 2000, 3400, 5500, 8000, 11_500, 16_001];
export const GROUPS = GROUP_EDGES.length - 1;

/** Steps of a beat: semiquavers where a beat is a crotchet. */
export const STEPS_PER_BEAT = 4;

/** A centred 46 ms frame shows an onset up to half a window early; flux is read this much earlier than power. */
const FLUX_LEAD_FRAMES = 2.5;

/** Flux is the rise of log10(1 + FLUX_GAIN · power / reference). */
const FLUX_GAIN = 1000;

/** A group quieter than this share of the loudest one counts as that quiet, so that noise floors stay floors. */
const QUIETEST_GROUP = 1e-6;

/** Mean power and summed onset flux of each group in each quarter of each beat. */
export interface StepTable {
  /** rows × GROUPS, linear power over the group's reference. */
  readonly power: Float32Array;
  /** rows × GROUPS, summed rises of the log power. */
  readonly flux: Float32Array;
  readonly rows: number;
  /** First row of each bar, and the row after the last bar: bars + 1 entries. */
  readonly barRow: Int32Array;
  /** Power of each group that counts as 1: the 95th percentile of its steps. */
  readonly reference: Float64Array;
}

/** Averages the front end over quarters of beats. Powers are relative, so a gain changes nothing. */
export function stepTable(frontEnd: FrontEnd, grid: Grid): StepTable {
  const { bars, beats } = grid;
  const barRow = new Int32Array(bars.length + 1);
  bars.forEach((bar, i) => (barRow[i + 1] = barRow[i] + bar.beats * STEPS_PER_BEAT));
  const rows = barRow[bars.length];
  const edges = new Float64Array(rows + 1);
  bars.forEach((bar, i) => {
    for (let b = 0; b < bar.beats; b++) {
      const from = beats[bar.firstBeat + b];
      const to = b + 1 < bar.beats ? beats[bar.firstBeat + b + 1] : bar.end;
      for (let q = 0; q < STEPS_PER_BEAT; q++)
        edges[barRow[i] + b * STEPS_PER_BEAT + q] = from + ((to - from) * q) / STEPS_PER_BEAT;
    }
  });
  edges[rows] = bars.length > 0 ? bars[bars.length - 1].end : 0;
  const grouped = groupFrames(frontEnd);
  const frames = frontEnd.bands.rows;
  const rate = frontEnd.bands.rate;
  const power = new Float32Array(rows * GROUPS);
  for (let r = 0; r < rows; r++) {
    const from = Math.ceil(edges[r] * rate);
    const to = Math.max(Math.ceil(edges[r + 1] * rate), from + 1);
    for (let f = Math.max(from, 0); f < Math.min(to, frames); f++)
      for (let g = 0; g < GROUPS; g++) power[r * GROUPS + g] += grouped[f * GROUPS + g] / (to - from);
  }
  const reference = references(power, rows);
  for (let i = 0; i < power.length; i++) power[i] /= reference[i % GROUPS];
  return { power, flux: flux(grouped, frames, rate, edges, rows, reference), rows, barRow, reference };
}

function groupFrames(frontEnd: FrontEnd): Float32Array {
  const groupOf = new Int8Array(BAND_COUNT);
  for (let k = 0; k < BAND_COUNT; k++) {
    const centre = Math.sqrt(Math.max(BAND_EDGES[k], 1) * BAND_EDGES[k + 1]);
    let g = 0;
    while (g < GROUPS - 1 && centre >= GROUP_EDGES[g + 1]) g++;
    groupOf[k] = g;
  }
  const { values, rows } = frontEnd.bands;
  const out = new Float32Array(rows * GROUPS);
  for (let r = 0; r < rows; r++)
    for (let k = 0; k < BAND_COUNT; k++) out[r * GROUPS + groupOf[k]] += values[r * BAND_COUNT + k];
  return out;
}

function references(power: Float32Array, rows: number): Float64Array {
  const reference = new Float64Array(GROUPS);
  const column = new Float32Array(rows);
  for (let g = 0; g < GROUPS; g++) {
    for (let r = 0; r < rows; r++) column[r] = power[r * GROUPS + g];
    const sorted = column.slice().sort();
    reference[g] = rows > 0 ? sorted[Math.floor(0.95 * (rows - 1))] : 0;
  }
  const loudest = Math.max(...reference);
  return reference.map((x) => Math.max(x, loudest * QUIETEST_GROUP, Number.MIN_VALUE * 1e30));
}

function flux(
  grouped: Float32Array,
  frames: number,
  rate: Hertz,
  edges: Float64Array,
  rows: number,
  reference: Float64Array,
): Float32Array {
  const out = new Float32Array(rows * GROUPS);
  const previous = new Float64Array(GROUPS);
  let row = 0;
  for (let f = 0; f < frames; f++) {
    while (row < rows && f + FLUX_LEAD_FRAMES >= edges[row + 1] * rate) row++;
    const inside = row < rows && f + FLUX_LEAD_FRAMES >= edges[row] * rate;
    for (let g = 0; g < GROUPS; g++) {
      const level = Math.log10(1 + (FLUX_GAIN * grouped[f * GROUPS + g]) / reference[g]);
      if (inside && f > 0 && level > previous[g]) out[row * GROUPS + g] += level - previous[g];
      previous[g] = level;
    }
  }
  return out;
}
