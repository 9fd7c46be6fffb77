import type { Fraction } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { GridBar } from './grid.js';
import { drumming, runs, type BarRun } from './strokes.js';

/** Below this share of a usual stroke a beat holds no drum. */
const SILENT: Fraction = 0.15;

/** Runs of at least `least` whole bars without drums; `mean` is how much drumming is left in them. */
export function beatlessRuns(f: BeatFeatures, bars: readonly GridBar[], least: number): BarRun[] {
  const strength = drumming(f, bars);
  return runs(
    bars,
    (i) => strength[i] < SILENT,
    (i) => strength[i],
    least,
  );
}
