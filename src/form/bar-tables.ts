import { borrowKernels, type Kernels, type Room } from '../signal/index.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Quantiles of a group over the steps of a bar. */
export const QUANTILES = [0.1, 0.5, 0.9] as const;

/** Columns that `describeTables` fills: quantiles, and three sorts of means. */
export const TABLE_COLUMNS = (QUANTILES.length + 3) * GROUPS;

/** A group from a row on. */
export function fillColumn(column: Float32Array, table: Float32Array, from: number, g: number): void {
  for (let i = 0, at = from * GROUPS + g; i < column.length; i++, at += GROUPS) column[i] = table[at];
}

export function quantile(values: Float32Array, q: number): number {
  const sorted = values.slice().sort();
  return sorted[Math.round(q * (sorted.length - 1))];
}

/** scale · log10(gain · power + floor) of every value. */
export function logLevels(powers: Float32Array, gain: number, floor: number, scale: number): Float32Array {
  const kernels = borrowKernels(4 * powers.length);
  const { at, view } = kernels.floats(powers.length);
  view.set(powers);
  kernels.loops.levels(at, powers.length, gain, floor, scale, at);
  return view.slice();
}

/** Quarters of a beat, [first, after the last). */
type Quarters = readonly [number, number];
const ALL: Quarters = [0, STEPS_PER_BEAT];
const ON_BEAT: Quarters = [0, 1];
const TAIL: Quarters = [2, STEPS_PER_BEAT];

/**
 * The first `TABLE_COLUMNS` of `columns` cues of each bar: for each group its quantiles in decibels, the mean of those in the latter
 * half of beats, and of its flux in all of the bar and on beats, over what is usual.
 */
export function describeTables(
  steps: StepTable,
  decibels: Float32Array,
  usualFlux: Float64Array,
  columns: number,
): Float32Array {
  const { barRow, flux } = steps;
  const bars = barRow.length - 1;
  const longest = longestBar(barRow);
  const kernels = borrowKernels(8 * decibels.length + 4 * (bars * columns + bars + 1 + longest) + 32 * GROUPS + 64);
  const { loops } = kernels;
  const [levels, rises, out] = [decibels, flux, bars * columns].map((of) => floatsOf(kernels, of));
  const [starts, shares] = [kernels.integers(barRow).at, kernels.doubles(QUANTILES).at];
  const [few, sums] = [kernels.floats(longest).at, kernels.doubles(GROUPS).at];
  const [ones, usual] = [kernels.doubles(new Float64Array(GROUPS).fill(1)).at, kernels.doubles(usualFlux).at];
  loops.quantiles(levels.at, GROUPS, starts, bars, shares, QUANTILES.length, few, out.at, columns);
  let at = out.at + 4 * QUANTILES.length * GROUPS;
  for (const [table, quarters, over] of [
    [levels, TAIL, ones],
    [rises, ALL, usual],
    [rises, ON_BEAT, usual],
  ] as const) {
    loops.means(table.at, GROUPS, starts, bars, STEPS_PER_BEAT, quarters[0], quarters[1], over, sums, at, columns);
    at += 4 * GROUPS;
  }
  return out.view.slice();
}

function floatsOf(kernels: Kernels, of: Float32Array | number): Room<Float32Array> {
  if (typeof of === 'number') return kernels.floats(of);
  const room = kernels.floats(of.length);
  room.view.set(of);
  return room;
}

function longestBar(barRow: Int32Array): number {
  let most = 0;
  for (let b = 0; b + 1 < barRow.length; b++) most = Math.max(most, barRow[b + 1] - barRow[b]);
  return most;
}

export function countOf(strokes: Uint8Array, from: number, to: number): number {
  let count = 0;
  for (let r = from; r < to; r++) count += strokes[r];
  return count;
}
