/** Usual phrase lengths that are weighed against each other. */
export const PHRASE_BARS = [4, 8, 16] as const;

/** A section's length is remembered up to here; beyond, by its remainder. */
export const LONGEST_SECTION = 96;

/** Costs in nats, fitted (see weights.ts). */
export interface LengthCosts {
  /** A phrase of the usual length costs nothing; half of it; another multiple of four, shorter or longer; even; odd. */
  readonly phrase: {
    readonly half: number;
    readonly four: number;
    readonly longer: number;
    readonly even: number;
    readonly odd: number;
  };
  /** What a phrase off the groups costs more that is over four bars longer than the usual one. */
  readonly far: number;
  /** What every bar of departure from a multiple of four adds when the phrase is shorter than four bars. */
  readonly stub: number;
  /** The first phrase may be the rest of one and the last may break off: this share of the cost remains where no longer. */
  readonly edge: number;
  /** Sections by length: a multiple of eight is free; under eight; another multiple of four; other. */
  readonly section: { readonly short: number; readonly four: number; readonly other: number };
  /** Every section and every phrase costs this much. */
  readonly perSection: number;
  readonly perPhrase: number;
  /** What a reading pays for its usual phrase length, in the order of PHRASE_BARS. */
  readonly usual: readonly number[];
}

/** Longest phrase under a usual length: half as much again, so that an extension stays one phrase. */
export function longestPhrase(usual: number): number {
  return usual + Math.max(usual / 2, 3);
}

/** Cost of a phrase of `bars` bars where `usual` is the rule. */
export function phraseCost(costs: LengthCosts, usual: number, bars: number, edge: boolean): number {
  const { half, four, longer, even, odd } = costs.phrase;
  let cost: number;
  if (bars === usual) cost = 0;
  else if (bars * 2 === usual && bars >= 4) cost = half;
  else if (bars % 4 === 0) cost = bars < usual ? four : longer;
  else {
    cost = (bars % 2 === 0 ? even : odd) + (bars < 4 ? costs.stub * (4 - bars) : 0);
    if (bars > usual + 4) cost += costs.far;
  }
  return costs.perPhrase + cost * (edge && bars <= usual ? costs.edge : 1);
}

/** Cost of a section of `bars` bars. */
export function sectionCost(costs: LengthCosts, bars: number, edge: boolean): number {
  const { short, four, other } = costs.section;
  const shape = bars % 8 === 0 ? 0 : bars % 4 === 0 ? four : other;
  return costs.perSection + (shape + (bars < 8 ? short : 0)) * (edge ? costs.edge : 1);
}
