import { median as medianOfSome, type Seconds } from '../units/index.js';

/** A steady grid t = offset + n·period fitted to times of beats. */
export interface LineFit {
  readonly offset: Seconds;
  readonly period: Seconds;
  /** Median of |residual| of the beats kept. */
  readonly spread: Seconds;
  /** Beats kept. */
  readonly kept: number;
}

/** Outliers beyond this many median absolute deviations are left out (methods, stage 3). */
const TRIM = 2.5;

/**
 * Least squares of times over beat numbers, trimmed at 2.5 median absolute deviations, five rounds.
 * @returns null with fewer than four beats
 */
export function fitLine(points: readonly { beat: number; time: Seconds }[]): LineFit | null {
  let kept = points;
  let fit: LineFit | null = null;
  for (let round = 0; round < 5; round++) {
    if (kept.length < 4) return fit;
    const n = kept.length;
    const meanBeat = kept.reduce((s, p) => s + p.beat, 0) / n;
    const meanTime = kept.reduce((s, p) => s + p.time, 0) / n;
    let sxx = 0;
    let sxy = 0;
    for (const p of kept) {
      sxx += (p.beat - meanBeat) ** 2;
      sxy += (p.beat - meanBeat) * (p.time - meanTime);
    }
    if (sxx === 0) return fit;
    const period = sxy / sxx;
    const offset = meanTime - period * meanBeat;
    const residuals = kept.map((p) => p.time - offset - period * p.beat);
    const centre = median(residuals);
    const spread = median(residuals.map((r) => Math.abs(r - centre)));
    fit = { offset, period, spread, kept: n };
    const limit = Math.max(TRIM * 1.4826 * spread, 0.0008);
    const next = points.filter((p) => Math.abs(p.time - offset - period * p.beat - centre) <= limit);
    if (next.length === kept.length && round > 0) break;
    kept = next;
  }
  return fit;
}

/** The middle value; of an even number the mean of the two middle ones; 0 of none. */
export function median(values: readonly number[]): number {
  return values.length === 0 ? 0 : medianOfSome(values);
}
