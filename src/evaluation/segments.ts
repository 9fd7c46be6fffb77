import type { Seconds } from '../units/index.js';
import { eventScore, fScore, type FScore } from './matching.js';

/** A stretch of a track with a label; stretches ascend and do not overlap. @experimental */
export interface LabelledInterval {
  readonly start: Seconds;
  readonly end: Seconds;
  readonly label: string;
}

/** Windows of the hit rate: MIREX "Structural Segmentation". @experimental */
export const BOUNDARY_WINDOWS = [0.5, 3] as const;
/** Frames of the pairwise measure. */
const FRAME: Seconds = 0.1;

/**
 * Every start and end once, to 10 µs; `inner` leaves the first and the last out, which every track has for nothing.
 * @experimental
 */
export function boundaries(intervals: readonly LabelledInterval[], inner = false): Seconds[] {
  const times = new Set(intervals.flatMap(({ start, end }) => [start, end].map((t) => Math.round(t * 1e5) / 1e5)));
  const sorted = [...times].sort((a, b) => a - b);
  return inner ? sorted.slice(1, -1) : sorted;
}

/** Boundary hit rate within ± `window` seconds; Turnbull et al., ISMIR 2007. @experimental */
export function boundaryScore(reference: readonly Seconds[], estimate: readonly Seconds[], window: Seconds): FScore {
  return eventScore(reference, estimate, window);
}

/**
 * Makes the intervals fill 0 … `end`: what lies outside is cut away, what is missing at either side is added under a
 * label of its own. Both sides of a comparison go through this with the reference's end, as in mir_eval.
 * @experimental
 */
export function spanning(intervals: readonly LabelledInterval[], end: Seconds): LabelledInterval[] {
  const cut = intervals
    .filter((s) => s.end > 0 && s.start < end)
    .map((s) => ({ ...s, start: Math.max(0, s.start), end: Math.min(end, s.end) }));
  if (cut.length === 0) return [{ start: 0, end, label: '(none)' }];
  if (cut[0].start > 0) cut.unshift({ start: 0, end: cut[0].start, label: '(before)' });
  const last = cut[cut.length - 1];
  if (last.end < end) cut.push({ start: last.end, end, label: '(after)' });
  return cut;
}

/**
 * Pairwise frame clustering: of all pairs of 0.1 s frames that one side gives one label, how many does the other;
 * Levy & Sandler, IEEE TASLP 2008.
 * @experimental
 */
export function pairwiseScore(reference: readonly LabelledInterval[], estimate: readonly LabelledInterval[]): FScore {
  const ours = frameLabels(reference);
  const theirs = frameLabels(estimate);
  const length = Math.min(ours.length, theirs.length);
  const references = pairs(count(ours.slice(0, length)));
  const estimates = pairs(count(theirs.slice(0, length)));
  const both = pairs(count(ours.slice(0, length).map((label, i) => JSON.stringify([label, theirs[i]]))));
  return fScore(both, references, estimates);
}

function frameLabels(intervals: readonly LabelledInterval[]): string[] {
  const frames = Math.floor((intervals.at(-1)?.end ?? 0) / FRAME);
  let s = 0;
  return Array.from({ length: frames }, (_, i) => {
    // Single precision, as in mir_eval: it decides on which side of a boundary a frame at 27.1 s lies.
    const time = Math.fround(i * Math.fround(FRAME));
    while (s < intervals.length - 1 && time >= intervals[s + 1].start) s++;
    return intervals[s].label;
  });
}

function count(labels: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const label of labels) counts.set(label, (counts.get(label) ?? 0) + 1);
  return counts;
}

function pairs(counts: Map<string, number>): number {
  let sum = 0;
  for (const n of counts.values()) sum += (n * (n - 1)) / 2;
  return sum;
}
