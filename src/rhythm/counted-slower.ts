import type { Bpm, Fraction } from '../units/index.js';
import type { Grid, GridConstraints } from './grid.js';
import { toldBeat } from './told-bars.js';

/** Tempos closer than this share are one. */
const SAME: Fraction = 0.03;
/** A count at half, a third or a quarter of the beats. */
const SLOWER = [2, 3, 4];

/**
 * What a slower tempo that somebody gives says more: who counts every second beat begins on the one. Chosen by itself, the
 * slower beat of fast drums is as often the snare.
 * @param asHeard the grid without the told tempo; asked for only where it matters
 */
export function countedSlower(constraints: GridConstraints, asHeard: () => Grid | null): GridConstraints {
  const { tempo } = constraints;
  if (tempo === undefined || toldBeat(constraints) !== undefined) return constraints;
  const heard = asHeard();
  if (heard === null || !SLOWER.some((n) => near(heard.tempo.bpm / n, tempo))) return constraints;
  return { ...constraints, beatAt: (heard.bars.find((bar) => bar.number === 1) ?? heard.bars[0]).start };
}

function near(a: Bpm, b: Bpm): boolean {
  return Math.abs(a / b - 1) < SAME;
}
