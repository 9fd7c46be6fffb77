import type { Seconds } from '../units/index.js';
import type { GridBar } from './grid.js';

/**
 * Bars from the beats on which they start: bars tile the beats. What lies before the first start is bar 0; the last bar
 * holds the beats that are left.
 * @param end start of what would follow the last beat
 */
export function makeBars(beats: readonly Seconds[], starts: readonly number[], end: Seconds): GridBar[] {
  const bars: GridBar[] = [];
  const edges = starts.length > 0 && starts[0] === 0 ? starts : [0, ...starts];
  const number = starts[0] === 0 ? 1 : 0;
  edges.forEach((firstBeat, i) => {
    const next = edges[i + 1] ?? beats.length;
    bars.push({
      number: number + i,
      start: beats[firstBeat],
      end: beats[next] ?? end,
      beats: next - firstBeat,
      firstBeat,
    });
  });
  return bars;
}

/** Joins a bar of a single beat to the bar before it: people count five, not four and one. */
export function joinSingles(starts: readonly number[]): number[] {
  return starts.filter(
    (s, i) => i === 0 || i + 1 === starts.length || starts[i + 1] - s !== 1 || s - starts[i - 1] === 1,
  );
}
