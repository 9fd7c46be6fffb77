import type { Arrangement, ArrangementTruth } from '../../../src/arranger/index.js';
import { planPhrase } from '../../../src/arranger/phrase.js';
import { struckCues } from '../../../src/form/struck-cues.js';
import type { StepTable } from '../../../src/form/steps.js';
import type { Grid } from '../../../src/rhythm/index.js';
import type { FrontEnd } from '../../../src/signal/index.js';

export interface StruckExample {
  readonly cues: readonly number[];
  readonly right: boolean;
}

/**
 * Bars in which chords or a voice play without drums and bass: struck where the chords are stabs, an arpeggio or a lead,
 * not where they are only held. The first bar of a phrase is left out: a crash may ring on in it.
 */
export function struckExamples(
  arrangement: Arrangement,
  truth: ArrangementTruth,
  frontEnd: FrontEnd,
  grid: Grid,
  steps: StepTable,
): StruckExample[] {
  const plans = arrangement.parts.flatMap((part) => part.phrases.map((p, i) => planPhrase(p, part.function, i === 0)));
  return grid.bars.flatMap(({ start }, b) => {
    const i = truth.phrases.findLastIndex((p) => p.start <= start + 0.01);
    const { has, textures } = plans[i];
    const opens = Math.abs(truth.phrases[i].start - start) < 0.01;
    if (opens || has.kick || has.percussion || has.bass || !(has.harmony || has.voice)) return [];
    const right = has.harmony && textures.some((t) => t !== 'pad');
    return [{ cues: struckCues(frontEnd, grid, steps, b), right }];
  });
}
