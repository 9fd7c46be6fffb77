import { logOdds, ODD_BAR_WEIGHTS, type Logistic } from '../learned/index.js';
import { oddBarCandidates, type OddBar, type OddBarScene } from './odd-bar-cues.js';

/** A bar that is longer or shorter than the others, and how sure that is. */
export interface FoundOddBar extends OddBar {
  /** Place of the bars' first beats among the beats before it, modulo the beats of a bar. */
  readonly phase: number;
  /** Log-odds, above 0. */
  readonly odds: number;
}

/**
 * Bars with beats too many or too few: of all candidates the surest one is taken, then, with it counted in, the next, as long
 * as one is likelier right than wrong.
 */
export function findOddBars(scene: OddBarScene, weights: Logistic = ODD_BAR_WEIGHTS): FoundOddBar[] {
  const found: FoundOddBar[] = [];
  for (;;) {
    let best: FoundOddBar | undefined;
    for (const { cues, ...candidate } of oddBarCandidates(scene, found, found[0]?.phase)) {
      const odds = logOdds(weights, cues);
      if (odds > (best?.odds ?? 0)) best = { ...candidate, odds };
    }
    if (best === undefined) return found.sort((a, b) => a.beat - b.beat);
    found.push(best);
  }
}
