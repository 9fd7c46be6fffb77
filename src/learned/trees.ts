/**
 * A sum of small decision trees, all of one depth (Friedman, "Greedy function approximation: a gradient boosting
 * machine", Annals of Statistics 2001). Where a logistic regression adds up cues, a tree also tells what a cue means
 * beside others.
 */
export interface Trees {
  /** Log-odds before any tree has spoken. */
  readonly base: number;
  readonly depth: number;
  /** Cue that each inner node looks at: 2^depth − 1 of a tree, from the root down, level by level. */
  readonly cues: readonly number[];
  /** A value above its node's limit goes to the right. */
  readonly limits: readonly number[];
  /** Log-odds that each leaf adds: 2^depth of a tree, from left to right. */
  readonly leaves: readonly number[];
}

/** Log-odds of one cue vector, read from `values` at `offset`. */
export function treeOdds({ base, depth, cues, limits, leaves }: Trees, values: ArrayLike<number>, offset = 0): number {
  const perTree = 2 ** depth;
  let odds = base;
  for (let first = 0, leaf = 0; leaf < leaves.length; first += perTree - 1, leaf += perTree) {
    // Nodes of a tree are numbered as in a heap: those below node k are 2k and 2k + 1.
    let node = 1;
    for (let level = 0; level < depth; level++) {
      const at = first + node - 1;
      node = 2 * node + (values[offset + cues[at]] > limits[at] ? 1 : 0);
    }
    odds += leaves[leaf + node - perTree];
  }
  return odds;
}
