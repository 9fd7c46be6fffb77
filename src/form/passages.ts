import type { Grid, GridIrregularity } from '../rhythm/index.js';

/** A half-time feel is heard over several bars, so its edges are only about right: they move to a phrase this near. */
const START_NEAR = 2;
const END_NEAR = 4;

/** The grid's own irregularities, half-time passages from phrase to phrase, but for passages without a beat: see `beatlessPassages`. */
export function settlePassages(grid: Grid, phraseStarts: readonly number[]): GridIrregularity[] {
  const indexOf = (bar: number) => grid.bars.findIndex((b) => b.number === bar);
  return grid.irregularities.flatMap((found): GridIrregularity[] => {
    if (found.kind === 'beatless-passage') return [];
    if (found.kind === 'half-time') {
      const first = nearest(phraseStarts, indexOf(found.bar), START_NEAR);
      const next = nearest(phraseStarts, indexOf(found.endBar) + 1, END_NEAR);
      const bars = next - first;
      const { number: bar, start: time } = grid.bars[first];
      return [{ ...found, bar, time, endBar: grid.bars[next - 1].number, evidence: { ...found.evidence, bars } }];
    }
    return [found];
  });
}

/** The phrase start nearest to a bar if it is within reach, else the bar itself. */
function nearest(phraseStarts: readonly number[], bar: number, reach: number): number {
  const close = phraseStarts.filter((s) => Math.abs(s - bar) <= reach);
  return close.length === 0 ? bar : close.reduce((a, b) => (Math.abs(b - bar) < Math.abs(a - bar) ? b : a));
}
