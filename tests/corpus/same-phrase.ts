import type { ArrangementTruth } from '../../src/arranger/index.js';
import type { TimedIrregularity } from '../../src/evaluation/index.js';
import type { IrregularityKind, Seconds } from '../../src/units/index.js';

/** A report; those of lengths say how many bars the phrase has and where the next one starts. */
export interface ToldIrregularity extends TimedIrregularity {
  readonly bars?: number;
  readonly nextStart?: Seconds;
}

const LENGTHS: readonly IrregularityKind[] = ['added-bars', 'dropped-bars', 'odd-phrase'];

/**
 * A phrase of ten bars among eights can be called odd, or an eight with two bars added: nothing in the sound tells the one
 * from the other, and who counts along is told the same. So a report of a length takes the name of what was planted where
 * it means the same phrase: as many bars, ending at the same place. Nothing else is renamed.
 * @param window how far apart (s) two ends may lie to be the same
 */
export function inPlantedWords(
  told: readonly ToldIrregularity[],
  { irregularities, phrases, beats }: Pick<ArrangementTruth, 'irregularities' | 'phrases' | 'beats'>,
  window: Seconds,
): TimedIrregularity[] {
  const endOf = (i: number) => phrases[i + 1]?.start ?? beats[beats.length - 1];
  return told.map(({ kind, time, bars, nextStart }) => {
    if (!LENGTHS.includes(kind) || bars === undefined || nextStart === undefined) return { kind, time };
    const i = phrases.findIndex((p, k) => p.bars === bars && Math.abs(endOf(k) - nextStart) <= window);
    const planted = irregularities.find((p) => {
      if (i < 0 || !LENGTHS.includes(p.kind)) return false;
      if (p.kind === 'odd-phrase') return Math.abs(p.time - phrases[i].start) < 0.01;
      if (p.kind === 'dropped-bars') return Math.abs(p.time - endOf(i)) < 0.01;
      return p.time > phrases[i].start && p.time < endOf(i);
    });
    return planted ? { kind: planted.kind, time: planted.time } : { kind, time };
  });
}
