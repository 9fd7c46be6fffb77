import type { Grid, GridIrregularity } from '../rhythm/index.js';
import type { LayerBars } from './form.js';

/** A layer is out of a bar below this presence. */
const OUT = 0.5;
/** A half-time feel is heard over several bars, so its edges are only about right: they move to a phrase this near. */
const START_NEAR = 2;
const END_NEAR = 4;

/**
 * The grid's own irregularities with the ends of passages as the form hears them: a beatless passage lasts until the kick
 * or the percussion comes in (a voice's consonants are not drums), a half-time passage from phrase to phrase.
 */
export function settlePassages(grid: Grid, layers: LayerBars, phraseStarts: readonly number[]): GridIrregularity[] {
  const indexOf = (bar: number) => grid.bars.findIndex((b) => b.number === bar);
  return grid.irregularities.map((found): GridIrregularity => {
    if (found.kind === 'beatless-passage') {
      let last = indexOf(found.endBar);
      const silent = (i: number) => (layers.kick[i] ?? 1) < OUT && (layers.percussion[i] ?? 1) < OUT;
      while (last + 1 < grid.bars.length && silent(last + 1)) last++;
      const bars = grid.bars[last].number - found.bar + 1;
      return { ...found, endBar: grid.bars[last].number, evidence: { ...found.evidence, bars } };
    }
    if (found.kind === 'half-time') {
      const first = nearest(phraseStarts, indexOf(found.bar), START_NEAR);
      const next = nearest(phraseStarts, indexOf(found.endBar) + 1, END_NEAR);
      const bars = next - first;
      const { number: bar, start: time } = grid.bars[first];
      return { ...found, bar, time, endBar: grid.bars[next - 1].number, evidence: { ...found.evidence, bars } };
    }
    return found;
  });
}

/** The phrase start nearest to a bar if it is within reach, else the bar itself. */
function nearest(phraseStarts: readonly number[], bar: number, reach: number): number {
  const close = phraseStarts.filter((s) => Math.abs(s - bar) <= reach);
  return close.length === 0 ? bar : close.reduce((a, b) => (Math.abs(b - bar) < Math.abs(a - bar) ? b : a));
}
