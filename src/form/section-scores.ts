import type { Fraction } from '../units/index.js';
import type { PhraseFunctions } from './functions.js';
import type { BoundaryScores } from './lattice.js';

/** Nats of the section score for every nat of a change of function. */
const CHANGE_SCALE = 0.8;

/** A change is never surer than this either way. */
const LEAST_SHARE = 0.003;

/**
 * Section scores that know what the phrases on either side do. Where it is plain what the phrases do, a section lasts as
 * long as its function; in music without such a plan (a song that is never out of full swing), a section lasts until much
 * of the sound changes.
 * @param starts the phrases' first bars (indices)
 * @param plan how far sections follow functions: 0 is change of sound alone (see plan.ts)
 */
export function sectionScores(
  { phrase, section }: BoundaryScores,
  starts: readonly number[],
  { change }: PhraseFunctions,
  plan: Fraction,
): BoundaryScores {
  const logOdds = (share: number) => Math.log((share + LEAST_SHARE) / (1 - share + LEAST_SHARE));
  const place = new Map(starts.map((b, i) => [b, i]));
  return {
    phrase,
    section: section.map((v, b) => {
      const i = place.get(b);
      return (1 - plan) * v + plan * CHANGE_SCALE * logOdds(i === undefined ? 0 : change[i]);
    }),
  };
}
