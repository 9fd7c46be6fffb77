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

/**
 * Joins a bar of a single beat to a neighbour: people count five, not four and one. Of the starts of the single beat and of the
 * bar after it the likelier one stays.
 */
export function joinSingles(starts: readonly number[], evidence: ArrayLike<number> = []): number[] {
  const gone = new Set<number>();
  starts.forEach((s, i) => {
    const next = starts[i + 1];
    if (i === 0 || next === undefined || next - s !== 1 || s - starts[i - 1] === 1) return;
    const inner = starts[i + 2] !== undefined && starts[i + 2] - next > 1;
    gone.add(inner && evidence[s] > evidence[next] ? next : s);
  });
  return starts.filter((s) => !gone.has(s));
}
