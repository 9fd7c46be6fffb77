import { createKernels, type FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import type { Hertz } from '../units/index.js';
import { BLOCK, createGroupedFrames, GROUPS, type GroupedFrames } from './grouped-frames.js';

export { GROUP_EDGES, GROUPS } from './grouped-frames.js';

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
  const frames = createGroupedFrames(frontEnd);
  const { rate } = frontEnd.bands;
  const power = meanPowers(frames, edges, rate);
  const reference = references(power, rows);
  for (let i = 0; i < power.length; i++) power[i] /= reference[i % GROUPS];
  return { power, flux: flux(frames, rate, edges, rows, reference), rows, barRow, reference };
}

/** Means of the frames that lie in each step, of its first one where none does. */
function meanPowers(frames: GroupedFrames, edges: Float64Array, rate: Hertz): Float32Array {
  const rows = edges.length - 1;
  const most = Math.min(BLOCK, frames.count);
  const kernels = createKernels(4 * (most * GROUPS + edges.length + rows * GROUPS));
  const [values, out] = [kernels.floats(most * GROUPS), kernels.floats(rows * GROUPS)];
  const begins = kernels.integers(edges.map((edge) => Math.ceil(edge * rate)));
  for (let f = 0, row = 0; f < frames.count && row < rows; f += BLOCK) {
    values.view.set(frames.around(f));
    row = kernels.loops.averaged(values.at, GROUPS, f, Math.min(BLOCK, frames.count - f), frames.count, begins.at, row, rows, out.at); // prettier-ignore
  }
  return out.view.slice();
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
  frames: GroupedFrames,
  rate: Hertz,
  edges: Float64Array,
  rows: number,
  reference: Float64Array,
): Float32Array {
  const most = Math.min(BLOCK, frames.count);
  const kernels = createKernels(
    8 * (most * GROUPS + 2 * GROUPS + edges.length) + 4 * (most * (GROUPS + 1) + rows * GROUPS),
  );
  const { loops } = kernels;
  const [levels, previous] = [kernels.doubles(most * GROUPS), kernels.doubles(GROUPS)];
  const [references, times] = [kernels.doubles(reference), kernels.doubles(edges)];
  const [powers, places, out] = [kernels.floats(most * GROUPS), kernels.integers(most), kernels.floats(rows * GROUPS)];
  previous.view.fill(Infinity);
  for (let f = 0, row = 0; f < frames.count; f += BLOCK) {
    const count = Math.min(BLOCK, frames.count - f);
    powers.view.set(frames.around(f));
    loops.compressed(powers.at, count, GROUPS, FLUX_GAIN, references.at, levels.at);
    row = loops.placed(count, f + FLUX_LEAD_FRAMES, times.at, rows, rate, row, places.at);
    loops.rising(levels.at, count, GROUPS, places.at, previous.at, out.at);
  }
  return out.view.slice();
}
