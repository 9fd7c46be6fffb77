import { GROUPS, STEPS_PER_BEAT } from './steps.js';

/** Quantiles of a group over the steps of a bar. */
export const QUANTILES = [0.1, 0.5, 0.9] as const;

/** A group from a row on. */
export function fillColumn(column: Float32Array, table: Float32Array, from: number, g: number): void {
  for (let i = 0, at = from * GROUPS + g; i < column.length; i++, at += GROUPS) column[i] = table[at];
}

export function quantile(values: Float32Array, q: number): number {
  return ofSorted(values.slice().sort(), q);
}

function ofSorted(sorted: Float32Array, q: number): number {
  return sorted[Math.round(q * (sorted.length - 1))];
}

/** The quantiles of each group over the steps of a bar, one quantile after the other. */
export function setQuantiles(values: Float32Array, at: number, table: Float32Array, from: number, to: number): void {
  const column = new Float32Array(to - from);
  for (let g = 0; g < GROUPS; g++) {
    fillColumn(column, table, from, g);
    sortFew(column, column.length);
    for (let q = 0; q < QUANTILES.length; q++) values[at + q * GROUPS + g] = ofSorted(column, QUANTILES[q]);
  }
}

/** Sorts the first `count` by insertion: of a dozen or two, calling the engine takes longer. */
export function sortFew(values: Float32Array, count: number): void {
  for (let i = 1; i < count; i++) {
    const value = values[i];
    let at = i;
    for (; at > 0 && values[at - 1] > value; at--) values[at] = values[at - 1];
    values[at] = value;
  }
}

/** Quarters of a beat, [first, after the last). */
export type Quarters = readonly [number, number];
export const ALL: Quarters = [0, STEPS_PER_BEAT];
export const ON_BEAT: Quarters = [0, 1];
export const TAIL: Quarters = [2, STEPS_PER_BEAT];

/** The mean of each group over some quarters of the beats of a bar, over its usual value where there is one. */
export function setMeans(
  values: Float32Array,
  at: number,
  table: Float32Array,
  from: number,
  to: number,
  quarters: Quarters,
  usual: Float64Array | null,
): void {
  const [first, last] = quarters;
  SUMS.fill(0);
  let n = 0;
  for (let r = from; r < to; r++) {
    const q = (r - from) % STEPS_PER_BEAT;
    if (q < first || q >= last) continue;
    addRow(table, r * GROUPS);
    n++;
  }
  for (let g = 0; g < GROUPS; g++) values[at + g] = (n > 0 ? SUMS[g] / n : 0) / (usual ? usual[g] : 1);
}

const SUMS = new Float64Array(GROUPS);

function addRow(table: Float32Array, row: number): void {
  for (let g = 0; g < GROUPS; g++) SUMS[g] += table[row + g];
}

export function countOf(strokes: Uint8Array, from: number, to: number): number {
  let count = 0;
  for (let r = from; r < to; r++) count += strokes[r];
  return count;
}
