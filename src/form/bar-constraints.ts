import type { Grid } from '../rhythm/index.js';
import { BARS_IN_GROUP } from '../units/index.js';
import type { FormConstraints } from './form.js';
import type { BarConstraints } from './lattice.js';
import { nearestBar } from './nearest-bar.js';

/**
 * A person's word as indices of bars. Who says that a phrase starts here says that none starts in the three bars beside
 * it, unless that is said as well: without this a start that was found a bar too early would stay, as a phrase of one bar.
 */
export function barConstraints(grid: Grid, told: FormConstraints): BarConstraints {
  const { phraseStarts, noPhraseStarts, sections, noSectionStarts } = told;
  const at = (times: readonly number[] = []) => new Set(times.map((t) => nearestBar(grid, t)).filter((b) => b > 0));
  const sectionStart = at(sections?.map((s) => s.start));
  const phraseStart = at(phraseStarts);
  const noPhraseStart = at(noPhraseStarts);
  const noSectionStart = at(noSectionStarts);
  const starts = new Set([...phraseStart, ...sectionStart]);
  for (const b of starts) for (let d = 1; d < BARS_IN_GROUP; d++) noPhraseStart.add(b - d).add(b + d);
  for (const b of starts) noPhraseStart.delete(b);
  for (const b of sectionStart) noSectionStart.delete(b);
  return { phraseStart, noPhraseStart, sectionStart, noSectionStart };
}

/** Nothing has been said. */
export function isFree(word: BarConstraints): boolean {
  return Object.values(word).every((bars: ReadonlySet<number>) => bars.size === 0);
}
