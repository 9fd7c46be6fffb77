import { bandColumns, type FrontEnd } from '../signal/index.js';
import type { CurveSet, Hertz } from '../units/index.js';
import { quantile } from './reduce.js';

/** Where the level is parted (Hz): kick and bass below, hats and air above. */
export const LEVEL_EDGES: readonly [Hertz, Hertz] = [150, 2500];

/** The share of the track that may be louder than the top of the drawing. */
const LOUDEST_SHARE = 0.999;

/**
 * RMS level over 46 ms, a hundred values a second, in three columns that contain each other: below 150 Hz, below
 * 2.5 kHz, everything. 1 is the level that the loudest thousandth of the track exceeds; amplitude, not decibels.
 */
export function levelCurves(frontEnd: FrontEnd): CurveSet {
  const { values, columns, rows, rate, start } = frontEnd.bands;
  const ends = [bandColumns(0, LEVEL_EDGES[0]).last, bandColumns(0, LEVEL_EDGES[1]).last, columns];
  const levels = new Float32Array(rows * 3);
  const total = new Float32Array(rows);
  for (let r = 0; r < rows; r++) {
    let power = 0;
    for (let column = 0, part = 0; part < 3; part++) {
      for (; column < ends[part]; column++) power += values[r * columns + column];
      levels[r * 3 + part] = Math.sqrt(power);
    }
    total[r] = levels[r * 3 + 2];
  }
  const top = quantile(total, LOUDEST_SHARE);
  if (top > 0) for (let i = 0; i < levels.length; i++) levels[i] = Math.min(1, levels[i] / top);
  return { values: levels, columns: 3, rows, rate, start };
}
