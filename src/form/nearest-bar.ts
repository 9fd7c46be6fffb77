import type { Grid } from '../rhythm/index.js';
import { barOfBeat } from './events.js';

/** Index of the bar nearest to a time. */
export function nearestBar(grid: Grid, time: number): number {
  const b = barOfBeat(grid, lastBeatBefore(grid, time));
  const next = grid.bars[b + 1];
  return next !== undefined && next.start - time < time - grid.bars[b].start ? b + 1 : b;
}

/** Index of the beat nearest to a time. */
export function nearestBeat(grid: Grid, time: number): number {
  const { beats } = grid;
  const b = lastBeatBefore(grid, time);
  return b + 1 < beats.length && beats[b + 1] - time < time - beats[b] ? b + 1 : b;
}

function lastBeatBefore(grid: Grid, time: number): number {
  let lo = 0;
  let hi = grid.beats.length - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (grid.beats[mid] <= time) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}
