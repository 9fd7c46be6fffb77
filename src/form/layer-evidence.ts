/** An event that does not happen does not happen this many bars to either side: else it would only move next door. */
export const AROUND_BARS = 2;

/** A person's word on the course of one layer, by indices of bars. */
export interface LayerWord {
  /** The layer enters (1) or leaves (0) with this bar. */
  readonly switches: ReadonlyMap<number, 0 | 1>;
  /** The layer neither enters with these bars (1) nor leaves (0). */
  readonly none: readonly [leaves: ReadonlySet<number>, enters: ReadonlySet<number>];
  /** Around these bars, and as long as it goes on, what sounds like the layer (1) or its absence (0) is something else. */
  readonly mistaken: readonly { readonly bar: number; readonly way: 0 | 1 }[];
}

/**
 * Takes the evidence away that was mistaken: from the place on until it turns for two bars, or another word stands against it.
 * @param odds log-odds of each bar, changed in place
 */
export function dropMistaken(odds: Float64Array, { mistaken, switches }: LayerWord): void {
  for (const { bar, way } of mistaken) {
    const speaks = (b: number) => (way === 1 ? odds[b] > 0 : odds[b] < 0);
    let against = 0;
    for (let b = Math.max(bar - AROUND_BARS, 0); b < odds.length && against < 2; b++) {
      if (b > bar && switches.has(b)) break;
      const near = b <= bar + AROUND_BARS;
      against = speaks(b) || near ? 0 : against + 1;
      if (speaks(b)) odds[b] = 0;
    }
  }
}
