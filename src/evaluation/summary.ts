import { bootstrapMean, bootstrapQuantile, type Interval } from './bootstrap.js';
import { MEASURE_INFO, MEASURES, type Measure } from './measures.js';
import type { Scores } from './score.js';

/** Each measure over several tracks; null where no track could be judged by it. @experimental */
export type Summary = Readonly<Record<Measure, Interval | null>>;

/**
 * Means (medians for errors) over tracks with 95 % bootstrap intervals; tracks without a value are left out.
 * @experimental
 */
export function summarise(tracks: readonly Scores[]): Summary {
  const entries = MEASURES.map((measure) => {
    const values = tracks.map((t) => t[measure]).filter((v) => v !== null);
    if (values.length === 0) return [measure, null];
    return [measure, MEASURE_INFO[measure].over === 'mean' ? bootstrapMean(values) : bootstrapQuantile(values, 0.5)];
  });
  return Object.fromEntries(entries) as Summary;
}
