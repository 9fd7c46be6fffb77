import { createDraw } from './draw.js';
import { sigmoid, type Example } from './logistic.js';
import type { Trees } from './trees.js';

/** How trees are grown. */
export interface BoostOptions {
  readonly trees: number;
  readonly depth: number;
  /** Share of what a tree would set right that it is allowed to. */
  readonly rate: number;
  /** L2 penalty on a leaf, against the summed curvature of the log loss of its examples. */
  readonly l2: number;
  /** Share of the examples, and of the cues, that each tree looks at. */
  readonly examples: number;
  readonly cues: number;
}

/** Values of a cue are told apart by this many classes, each as full as the others. */
const CLASSES = 32;
/** A node with fewer examples is left as it is. */
const LEAST_EXAMPLES = 50;
/** No value is above it: everything goes to the left. */
const NO_LIMIT = 1e30;

/**
 * Fits trees by gradient boosting on the log loss: each tree is grown on what the sum of those before it gets wrong, by
 * gain of second order (Chen and Guestrin, "XGBoost: a scalable tree boosting system", 2016), on a part of the examples
 * and cues (Friedman, "Stochastic gradient boosting", 2002). Chance is drawn from fixed numbers: the same examples give
 * the same trees.
 * @param examples of both kinds, right and wrong
 */
export function fitTrees(examples: readonly Example[], options: BoostOptions): Trees {
  const table = classTable(examples);
  const n = examples.length;
  const right = Float64Array.from(examples, (e) => (e.right ? 1 : 0));
  const weight = Float64Array.from(examples, (e) => e.weight);
  const share = weightedMean(right, weight);
  const base = Math.log(share / (1 - share));
  const odds = new Float64Array(n).fill(base);
  const slope = new Float64Array(n);
  const bend = new Float64Array(n);
  const cues: number[] = [];
  const limits: number[] = [];
  const leaves: number[] = [];
  const draw = createDraw();
  for (let t = 0; t < options.trees; t++) {
    for (let i = 0; i < n; i++) {
      const p = sigmoid(odds[i]);
      slope[i] = weight[i] * (p - right[i]);
      bend[i] = weight[i] * p * (1 - p);
    }
    const rows = drawn(n, options.examples, draw);
    const columns = drawn(table.edges.length, options.cues, draw);
    const tree = growTree(table, slope, bend, rows, columns, options);
    cues.push(...tree.cues);
    limits.push(...tree.classes.map((c, k) => table.edges[tree.cues[k]][c] ?? NO_LIMIT));
    leaves.push(...tree.leaves);
    for (let i = 0; i < n; i++) odds[i] += tree.leaves[leafOf(tree, table, i)];
  }
  return { base, depth: options.depth, cues, limits, leaves };
}

interface Tree {
  readonly depth: number;
  readonly cues: number[];
  /** Largest class that goes to the left. */
  readonly classes: number[];
  readonly leaves: number[];
}

function growTree(
  table: ClassTable,
  slope: Float64Array,
  bend: Float64Array,
  rows: Int32Array,
  columns: Int32Array,
  { depth, rate, l2 }: BoostOptions,
): Tree {
  const tree: Tree = { depth, cues: [], classes: [], leaves: [] };
  let nodes: Int32Array[] = [rows];
  for (let level = 0; level < depth; level++) {
    nodes = nodes.flatMap((members) => {
      const { cue, last } = bestSplit(table, slope, bend, members, columns, l2);
      tree.cues.push(cue);
      tree.classes.push(last);
      const column = table.values[cue];
      const isLeft = (i: number) => column[i] <= last;
      return [members.filter(isLeft), members.filter((i) => !isLeft(i))];
    });
  }
  for (const members of nodes) {
    let slopes = 0;
    let bends = 0;
    for (const i of members) {
      slopes += slope[i];
      bends += bend[i];
    }
    tree.leaves.push((-rate * slopes) / (bends + l2));
  }
  return tree;
}

/** The cue, and the last class on its left side, whose split gains most; everything stays left where nothing gains. */
function bestSplit(
  { values }: ClassTable,
  slope: Float64Array,
  bend: Float64Array,
  members: Int32Array,
  columns: Int32Array,
  l2: number,
): { cue: number; last: number } {
  let best = { cue: 0, last: CLASSES };
  if (members.length < LEAST_EXAMPLES) return best;
  let most = 0;
  const slopes = new Float64Array(CLASSES);
  const bends = new Float64Array(CLASSES);
  for (const cue of columns) {
    slopes.fill(0);
    bends.fill(0);
    const column = values[cue];
    for (let k = 0; k < members.length; k++) {
      const i = members[k];
      const c = column[i];
      slopes[c] += slope[i];
      bends[c] += bend[i];
    }
    const slopeOfAll = slopes.reduce((a, b) => a + b, 0);
    const bendOfAll = bends.reduce((a, b) => a + b, 0);
    const before = slopeOfAll ** 2 / (bendOfAll + l2);
    let s = 0;
    let h = 0;
    for (let c = 0; c < CLASSES - 1; c++) {
      s += slopes[c];
      h += bends[c];
      const gain = s ** 2 / (h + l2) + (slopeOfAll - s) ** 2 / (bendOfAll - h + l2) - before;
      if (gain > most) {
        most = gain;
        best = { cue, last: c };
      }
    }
  }
  return best;
}

function leafOf(tree: Tree, { values }: ClassTable, i: number): number {
  let node = 1;
  for (let level = 0; level < tree.depth; level++)
    node = 2 * node + (values[tree.cues[node - 1]][i] > tree.classes[node - 1] ? 1 : 0);
  return node - 2 ** tree.depth;
}

/** The class of each value, cue by cue: `values[cue][example]`. */
interface ClassTable {
  readonly values: readonly Uint8Array[];
  /** Upper edge of every class of each cue but the last. */
  readonly edges: readonly (readonly number[])[];
}

function classTable(examples: readonly Example[]): ClassTable {
  const columns = examples[0].cues.length;
  const edges = Array.from({ length: columns }, (_, k) => edgesOf(Float64Array.from(examples, (e) => e.cues[k])));
  return { values: edges.map((own, k) => Uint8Array.from(examples, (e) => classOf(own, e.cues[k]))), edges };
}

function edgesOf(values: Float64Array): number[] {
  values.sort();
  const edges = Array.from({ length: CLASSES - 1 }, (_, c) => values[Math.floor(((c + 1) * values.length) / CLASSES)]);
  return [...new Set(edges)];
}

/** Number of edges that the value is above. */
function classOf(edges: readonly number[], value: number): number {
  let low = 0;
  let high = edges.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (value > edges[middle]) low = middle + 1;
    else high = middle;
  }
  return low;
}

function weightedMean(values: Float64Array, weight: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < values.length; i++) {
    sum += weight[i] * values[i];
    total += weight[i];
  }
  return sum / total;
}

/** Numbers from 0 to `of` − 1 that chance lets through, at least one. */
function drawn(of: number, share: number, draw: () => number): Int32Array {
  const all = Int32Array.from({ length: of }, (_, i) => i);
  const some = all.filter(() => draw() < share);
  return some.length > 0 ? some : all;
}
