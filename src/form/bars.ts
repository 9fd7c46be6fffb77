import type { FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
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
  const log = steps.power.map((p) => Math.log10(1 + COMPRESSION * p));
  return {
    bars,
    low: pattern(log, steps, bars, perBar, [[0], [1], [2]]),
    mid: pattern(log, steps, bars, perBar, [[3], [4], [5], [6], [7]]),
    high: pattern(log, steps, bars, perBar, [[8], [9], [10], [11]]),
    rhythm: pattern(steps.flux, steps, bars, perBar, [
      [0, 1],
      [2, 3, 4],
      [5, 6, 7],
      [8, 9, 10, 11],
    ]),
    level: levels(log, steps, bars),
    chroma: halfBarChroma(frontEnd, grid),
  };
}

function pattern(table: Float32Array, steps: StepTable, bars: number, perBar: number, groups: number[][]): BarVectors {
  const columns = perBar * groups.length;
  const values = new Float32Array(bars * columns);
  for (let b = 0; b < bars; b++) {
    const from = steps.barRow[b];
    const length = steps.barRow[b + 1] - from;
    for (let s = 0; s < perBar; s++) {
      const row = from + Math.min(Math.floor(((s + 0.5) * length) / perBar), length - 1);
      for (let g = 0; g < groups.length; g++) {
        // Groups are neighbours.
        const first = groups[g][0];
        const count = groups[g].length;
        let sum = 0;
        for (let k = first; k < first + count; k++) sum += table[row * GROUPS + k];
        values[b * columns + s * groups.length + g] = sum / count;
      }
    }
  }
  return { values, columns };
}

function levels(log: Float32Array, steps: StepTable, bars: number): BarVectors {
  const values = new Float32Array(bars * GROUPS);
  for (let b = 0; b < bars; b++) {
    const from = steps.barRow[b];
    const to = steps.barRow[b + 1];
    for (let r = from; r < to; r++)
      for (let g = 0; g < GROUPS; g++) values[b * GROUPS + g] += log[r * GROUPS + g] / (to - from);
  }
  return { values, columns: GROUPS };
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
