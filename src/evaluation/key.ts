import { PITCH_CLASSES, type Fraction, type NamedKey } from '../units/index.js';

/**
 * Weighted key score of MIREX: the same key 1, a fifth away 0.5, relative 0.3, parallel 0.2, anything else 0.
 *
 * @experimental
 * @param fifths `both` credits the fifth above and below (MIREX since 2017), `ascending` only the one above (mir_eval)
 */
export function keyScore(
  reference: NamedKey,
  estimate: NamedKey | null,
  fifths: 'both' | 'ascending' = 'both',
): Fraction {
  if (!estimate) return 0;
  const steps = (PITCH_CLASSES.indexOf(estimate.tonic) - PITCH_CLASSES.indexOf(reference.tonic) + 12) % 12;
  if (estimate.mode === reference.mode)
    return steps === 0 ? 1 : steps === 7 || (fifths === 'both' && steps === 5) ? 0.5 : 0;
  if (steps === 0) return 0.2;
  const relative = reference.mode === 'major' ? 9 : 3;
  return steps === relative ? 0.3 : 0;
}
