import { borrowKernels, type FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import { logLevels } from './bar-tables.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Log compression of relative power: 0 at silence, about 3 at the loud end of a group. */
const COMPRESSION = 1000;

/** One vector per bar, all of one length. */
export interface BarVectors {
  readonly values: Float32Array;
  readonly columns: number;
}

/** What each bar sounds like, in parts that change for different reasons. */
export interface BarFeatures {
  readonly bars: number;
  /** Patterns: log power on every step of the bar. */
  readonly low: BarVectors;
  readonly mid: BarVectors;
  readonly high: BarVectors;
  /** Rhythm alone: onset flux on every step in four ranges. */
  readonly rhythm: BarVectors;
  /** Mean log power of each group. */
  readonly level: BarVectors;
  /** Pitch classes of each half bar. */
  readonly chroma: BarVectors;
}

/** The parts of {@link BarFeatures} that are compared, in a fixed order (weights rest on it). */
export const PARTS = ['low', 'mid', 'high', 'rhythm', 'level', 'chroma'] as const;
export type Part = (typeof PARTS)[number];

/** Makes the vectors; bars of another number of beats are stretched to the usual number of steps. */
export function barFeatures(frontEnd: FrontEnd, grid: Grid, steps: StepTable): BarFeatures {
  const bars = grid.bars.length;
  const perBar = grid.metre.beatsPerBar * STEPS_PER_BEAT;
  const log = logLevels(steps.power, COMPRESSION, 1, 1);
  return {
    bars,
    ...patterns(log, steps, perBar, { low: [1, 1, 1], mid: [1, 1, 1, 1, 1], high: [1, 1, 1, 1] }),
    ...patterns(steps.flux, steps, perBar, { rhythm: [2, 3, 3, 4] }),
    level: levels(log, steps),
    chroma: halfBarChroma(frontEnd, grid),
  };
}

/**
 * A table on even places of each bar, in parts that follow each other: `sizes` holds how many groups of frequencies are taken
 * together for each value of a part.
 */
function patterns<P extends string>(
  table: Float32Array,
  { barRow }: StepTable,
  perBar: number,
  sizes: Readonly<Record<P, readonly number[]>>,
): Record<P, BarVectors> {
  const bars = barRow.length - 1;
  const kernels = borrowKernels(4 * (table.length + barRow.length + bars * perBar * GROUPS) + 8 * GROUPS);
  const [rows, starts] = [kernels.floats(table.length), kernels.integers(barRow)];
  const [groups, out] = [kernels.integers(2 * GROUPS), kernels.floats(bars * perBar * GROUPS)];
  rows.view.set(table);
  let first = 0;
  const entries = (Object.keys(sizes) as P[]).map((part): [P, BarVectors] => {
    const count = sizes[part].length;
    const columns = perBar * count;
    groups.view.set(sizes[part].flatMap((size) => [(first += size) - size, size]));
    kernels.loops.patterns(rows.at, GROUPS, starts.at, bars, perBar, groups.at, count, out.at);
    return [part, { values: out.view.slice(0, bars * columns), columns }];
  });
  return Object.fromEntries(entries) as Record<P, BarVectors>;
}

/** Means over the steps of each bar. */
function levels(log: Float32Array, { barRow, rows }: StepTable): BarVectors {
  const bars = barRow.length - 1;
  const kernels = borrowKernels(4 * (log.length + barRow.length + bars * GROUPS));
  const [table, starts, out] = [kernels.floats(log.length), kernels.integers(barRow), kernels.floats(bars * GROUPS)];
  table.view.set(log);
  kernels.loops.averaged(table.at, GROUPS, 0, rows, rows, starts.at, 0, bars, out.at);
  return { values: out.view.slice(), columns: GROUPS };
}

/** Chroma of each half of each bar, divided by its sum: what is played, not how loud. */
function halfBarChroma(frontEnd: FrontEnd, grid: Grid): BarVectors {
  const { values: chroma, rate, rows } = frontEnd.chroma;
  const columns = 24;
  const values = new Float32Array(grid.bars.length * columns);
  const floor = frontEnd.meanPower * 1e-3;
  grid.bars.forEach(({ start, end }, b) => {
    const middle = (start + end) / 2;
    for (const [half, from, to] of [
      [0, start, middle],
      [1, middle, end],
    ] as const) {
      const first = Math.max(0, Math.ceil(from * rate));
      const last = Math.min(rows, Math.max(Math.ceil(to * rate), first + 1));
      setChroma(chroma, first, last, floor, values, b * columns + half * 12);
    }
  });
  return { values, columns };
}

/** Roots of the mean power of each pitch class over some rows, as a share of all. */
function setChroma(
  chroma: Float32Array,
  first: number,
  last: number,
  floor: number,
  values: Float32Array,
  at: number,
): void {
  let sum = 0;
  for (let r = first; r < last; r++)
    for (let c = 0; c < 12; c++) {
      const share = chroma[r * 12 + c] / (last - first);
      values[at + c] += share;
      sum += share;
    }
  for (let c = 0; c < 12; c++) values[at + c] = Math.sqrt(values[at + c] / (sum + floor));
}
