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
  readonly dance?: readonly [number | null, number];
  readonly other?: readonly [number | null, number];
  /** Which songs: made to a clock, with verified onsets, or with at least three true sections; all when left out. */
  readonly of?: 'steady' | 'verified' | 'sections';
  /** Less is better. */
  readonly error?: true;
}

const share = { over: 'mean', digits: 3 } as const;
const error = { error: true } as const;
const both = (floor: number | null, goal: number) => ({ dance: [floor, goal], other: [floor, goal] }) as const;
const sections = { ...share, of: 'sections' } as const;

/** Grid figures first; floors and goals where there are any. */
// prettier-ignore
export const FIGURES: readonly Figure[] = [
  { name: 'tempo accuracy 1', measure: 'tempo1', ...share, dance: [0.95, 0.98], other: [0.8, 0.9] },
  { name: 'tempo accuracy 2', measure: 'tempo2', ...share, dance: [0.98, 1], other: [0.95, 0.98] },
  { name: 'beat F', measure: 'beatF', ...share, dance: [0.92, 0.96], other: [0.8, 0.9] },
  { name: 'AMLt', measure: 'amlt', ...share, dance: [0.93, 0.97], other: [0.85, 0.92] },
  { name: 'CMLt', measure: 'cmlt', ...share },
  { name: 'downbeat F', measure: 'downbeatF', ...share, dance: [0.85, 0.92], other: [0.65, 0.8] },
  { name: 'tempo error, median (BPM)', measure: 'tempoErrorBpm', over: { quantile: 0.5 }, digits: 4, ...error, ...both(0.005, 0.002) },
  { name: 'tempo error, 95 % (BPM)', measure: 'tempoErrorBpm', over: { quantile: 0.95 }, digits: 4, ...error, ...both(0.02, 0.01) },
  { name: 'beat error, median (ms), onsets verified', measure: 'beatMedianMs', of: 'verified', over: { quantile: 0.5 }, digits: 1, ...error, ...both(3, 3) },
  { name: 'share of beats matched, onsets verified', measure: 'beatsMatched', of: 'verified', ...share },
  { name: 'beat error, 95 % of a song (ms)', measure: 'beat95Ms', over: { quantile: 0.5 }, digits: 1, ...error },
  { name: 'last beat within 10 ms, made to a clock', measure: 'lastBeatMs', of: 'steady', over: { within: 10 }, digits: 3 },
  { name: 'group starts F', measure: 'groupF', ...share, ...both(null, 0.85) },
  { name: 'sections F, ½ beat', measure: 'boundaryHalfBeatF', ...sections, ...both(0.48, 0.6) },
  { name: 'sections F, one beat', measure: 'boundaryBeatF', ...sections },
  { name: 'sections F, one bar', measure: 'boundaryBarF', ...sections },
  { name: 'sections F, 0.5 s', measure: 'boundary05F', ...sections },
  { name: 'sections F, 3 s', measure: 'boundary3F', ...sections, ...both(null, 0.75) },
  { name: 'sections pairwise F', measure: 'pairwiseF', ...sections },
];

/** Fewer true sections than this tell little. */
const LEAST_SECTIONS = 3;

function concerns({ facts }: Outcome, { of }: Figure): boolean {
  if (of === undefined || facts === undefined) return true;
  return of === 'sections' ? facts.sections >= LEAST_SECTIONS : facts[of];
}

/** A song whole and cut, by one system and one choice of weights. */
export interface Pair {
  readonly whole: Outcome;
  readonly cut: Outcome;
}

export type Part = 'scores' | 'fromStart';

/** The worse of a song and its cut copy; null where neither could be judged. */
export function worse({ whole, cut }: Pair, system: string, figure: Figure, part: Part = 'scores'): number | null {
  if (!concerns(whole, figure)) return null;
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

export type Verdict = 'goal' | 'floor' | 'under the goal' | 'below';

/** Whether a figure reaches goal or floor; null where nothing is asked. */
export function verdict(value: number, figure: Figure, group: 'dance' | 'other'): Verdict | null {
  const asked = figure[group];
  if (!asked) return null;
  const rounded = Number(value.toFixed(figure.digits));
  const reaches = (limit: number | null) => limit !== null && (figure.error ? rounded <= limit : rounded >= limit);
  if (reaches(asked[1])) return 'goal';
  if (asked[0] === null) return 'under the goal';
  return reaches(asked[0]) ? 'floor' : 'below';
}
