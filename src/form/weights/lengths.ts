import type { LengthCosts } from '../lengths.js';

/** Costs in nats of the lengths of phrases and sections. */
export const LENGTH_COSTS: LengthCosts = {
  phrase: { half: 0.7, four: 1.2, even: 4, odd: 4.5 },
  stub: 1,
  edge: 0.4,
  section: { short: 0.5, four: 0.3, other: 0.5 },
  perSection: 0,
  perPhrase: 0,
  usual: [2, 0, 0.5],
};
