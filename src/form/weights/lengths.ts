import type { LengthCosts } from '../lengths.js';

/** Costs in nats of the lengths of phrases and sections, fitted on the same tracks as the boundaries; `far` by 84 other arranged tracks. */
export const LENGTH_COSTS: LengthCosts = {
  phrase: { half: 2, four: 0.935, longer: 3, even: 3.88, odd: 4.16 },
  far: 1.5,
  stub: 0.82,
  edge: 0.512,
  section: { short: 0.303, four: 0.112, other: 0.0678 },
  perSection: 0,
  perPhrase: 0,
  usual: [3.1, 0, 4],
};
