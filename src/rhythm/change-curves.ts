import { createKernels, type FrontEnd, type Kernels, type Room } from '../signal/index.js';
import type { CurveSet, Hertz, Seconds } from '../units/index.js';
import type { LogPowers } from './log-powers.js';

/** Running sums of a few features over time, so that the mean over any stretch costs nothing. */
export interface RunningFeatures {
  readonly columns: number;
  readonly rows: number;
  readonly rate: Hertz;
  readonly start: Seconds;
  /** sums[r * columns + c]: sum of rows before r; in the memory of loops of their own. */
  readonly sums: Room<Float64Array>;
  readonly kernels: Kernels;
  /** Room for times at which change is measured, and for what is summed. */
  readonly times: Room<Float64Array>;
  readonly few: Room<Float64Array>;
}

/** Rows that are read together. */
const BLOCK_ROWS = 2048;

/** Columns of the coarse bands that are put together to one. */
const GROUP = 4;

/** Times that change is measured at in one go: a multiple of four beats of four places. */
export const TIMES = 4096;

/** Loops with room for running sums and for what is asked of them. */
function createRunning(
  { rows, rate, start }: Pick<CurveSet, 'rows' | 'rate' | 'start'>,
  columns: number,
  more: number,
): RunningFeatures {
  const kernels = createKernels(8 * ((rows + 1) * columns + TIMES + FEW) + more);
  const sums = kernels.doubles((rows + 1) * columns);
  return { columns, rows, rate, start, sums, kernels, times: kernels.doubles(TIMES), few: kernels.doubles(FEW) };
}

const FEW = 8;

/** Log powers in a dozen bands. */
export function runningSpectrum(frontEnd: FrontEnd, logs: LogPowers): RunningFeatures {
  const { columns, rows } = frontEnd.bands;
  const groups = Math.ceil(columns / GROUP);
  const running = createRunning(frontEnd.bands, groups, 4 * BLOCK_ROWS * columns);
  const { kernels, sums } = running;
  const room = kernels.floats(BLOCK_ROWS * columns);
  for (let from = 0; from < rows; from += BLOCK_ROWS) {
    const count = Math.min(BLOCK_ROWS, rows - from);
    room.view.set(logs.read(from, from + count));
    kernels.loops.running(room.at, count, columns, GROUP, sums.at + 8 * from * groups);
  }
  return running;
}

/** Amplitude per pitch class, each row scaled to sum 1. */
export function runningChroma(frontEnd: FrontEnd): RunningFeatures {
  const { columns, rows, values } = frontEnd.chroma;
  const running = createRunning(frontEnd.chroma, columns, 4 * BLOCK_ROWS * columns);
  const { kernels, sums } = running;
  const room = kernels.floats(BLOCK_ROWS * columns);
  for (let from = 0; from < rows; from += BLOCK_ROWS) {
    const count = Math.min(BLOCK_ROWS, rows - from);
    room.view.set(values.subarray(from * columns, (from + count) * columns));
    kernels.loops.rootShares(room.at, count, columns, sums.at + 8 * from * columns);
  }
  return running;
}
