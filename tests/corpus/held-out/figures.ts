import { bootstrapMean, bootstrapQuantile, type Interval, type Measure } from '../../../src/evaluation/index.js';
import type { Outcome } from '../job.js';

/** One row of the table: a measure, how it is put together over songs, and what is asked of it. */
export interface Figure {
  readonly name: string;
  readonly measure: Measure;
  /** Mean over songs, a quantile over songs, or the share of songs at or under a limit. */
  readonly over: 'mean' | { readonly quantile: number } | { readonly within: number };
  readonly digits: number;
  /** Floor and goal, for dance music and for other music. */
  readonly dance?: readonly [number, number];
  readonly other?: readonly [number, number];
  /** Less is better. */
  readonly error?: true;
}

const share = { over: 'mean', digits: 3 } as const;
const error = { error: true } as const;

/** Grid figures first; floors and goals where there are any. */
export const FIGURES: readonly Figure[] = [
  { name: 'tempo accuracy 1', measure: 'tempo1', ...share, dance: [0.95, 0.98], other: [0.8, 0.9] },
  { name: 'tempo accuracy 2', measure: 'tempo2', ...share, dance: [0.98, 1], other: [0.95, 0.98] },
  { name: 'beat F', measure: 'beatF', ...share, dance: [0.92, 0.96], other: [0.8, 0.9] },
  { name: 'AMLt', measure: 'amlt', ...share, dance: [0.93, 0.97], other: [0.85, 0.92] },
  { name: 'CMLt', measure: 'cmlt', ...share },
  { name: 'downbeat F', measure: 'downbeatF', ...share, dance: [0.85, 0.92], other: [0.65, 0.8] },
  { name: 'tempo error, median (BPM)', measure: 'tempoErrorBpm', over: { quantile: 0.5 }, digits: 4, ...error, dance: [0.005, 0.002], other: [0.005, 0.002] },
  { name: 'tempo error, 95 % (BPM)', measure: 'tempoErrorBpm', over: { quantile: 0.95 }, digits: 4, ...error, dance: [0.02, 0.01], other: [0.02, 0.01] },
  { name: 'beat error, median (ms)', measure: 'beatMedianMs', over: { quantile: 0.5 }, digits: 1, ...error, dance: [3, 3], other: [3, 3] },
  { name: 'beat error, 95 % of a song (ms)', measure: 'beat95Ms', over: { quantile: 0.5 }, digits: 1, ...error },
  { name: 'share of beats matched', measure: 'beatsMatched', ...share },
  { name: 'last beat within 10 ms', measure: 'lastBeatMs', over: { within: 10 }, digits: 3 },
  { name: 'group starts F', measure: 'groupF', ...share },
  { name: 'sections F, ½ beat', measure: 'boundaryHalfBeatF', ...share },
  { name: 'sections F, one beat', measure: 'boundaryBeatF', ...share },
  { name: 'sections F, one bar', measure: 'boundaryBarF', ...share },
  { name: 'sections F, 0.5 s', measure: 'boundary05F', ...share },
  { name: 'sections F, 3 s', measure: 'boundary3F', ...share },
]; // prettier-ignore

/** A song whole and cut, by one system and one choice of weights. */
export interface Pair {
  readonly whole: Outcome;
  readonly cut: Outcome;
}

export type Part = 'scores' | 'fromStart';

/** The worse of a song and its cut copy; null where neither could be judged. */
export function worse({ whole, cut }: Pair, system: string, figure: Figure, part: Part = 'scores'): number | null {
  const values = [whole, cut].map((o) => o[part]?.[system]?.[figure.measure] ?? null).filter((v) => v !== null);
  if (values.length === 0) return null;
  return figure.error || typeof figure.over === 'object' ? Math.max(...values) : Math.min(...values);
}

/** A figure over songs with its 95 % bootstrap interval; null where no song could be judged. */
export function over(figure: Figure, values: readonly (number | null)[]): Interval | null {
  const known = values.filter((v) => v !== null);
  if (known.length === 0) return null;
  if (figure.over === 'mean') return bootstrapMean(known);
  if ('quantile' in figure.over) return bootstrapQuantile(known, figure.over.quantile);
  const { within } = figure.over;
  return bootstrapMean(known.map((v) => Number(v <= within)));
}

export type Verdict = 'goal' | 'floor' | 'below';

/** Whether a figure reaches goal or floor; null where nothing is asked. */
export function verdict(value: number, figure: Figure, group: 'dance' | 'other'): Verdict | null {
  const asked = figure[group];
  if (!asked) return null;
  const rounded = Number(value.toFixed(figure.digits));
  const reaches = (limit: number) => (figure.error ? rounded <= limit : rounded >= limit);
  return reaches(asked[1]) ? 'goal' : reaches(asked[0]) ? 'floor' : 'below';
}
