import { borrowKernels, type Kernels } from '../signal/index.js';
import { LIMIT, type Logistic } from './logistic.js';
import type { Network } from './network.js';
import type { Trees } from './trees.js';

/** Rows of cues: `values[row * columns + cue]`. */
export interface CueRows {
  readonly values: Float32Array;
  readonly columns: number;
}

/** Bytes that a model may take beside the rows it judges, with room to spare. */
const MODEL_BYTES = 1 << 18;

/** Log-odds of every row, as `treeOdds`, `networkOdds` or `logOdds` gives them for one; the first cues of a row are those of the model. */
export function oddsOfRows(model: Trees | Network | Logistic, { values, columns }: CueRows): Float64Array {
  const rows = values.length / columns;
  const kernels = borrowKernels(4 * values.length + 8 * rows + MODEL_BYTES);
  const cues = kernels.floats(values.length);
  cues.view.set(values);
  const out = kernels.doubles(rows);
  if ('leaves' in model) byTrees(kernels, model, cues.at, rows, columns, out.at);
  else byUnits(kernels, model, cues.at, rows, columns, out.at);
  return out.view.slice();
}

function byTrees(kernels: Kernels, model: Trees, values: number, rows: number, columns: number, out: number): void {
  const { base, depth } = model;
  const [limits, leaves] = [kernels.doubles(model.limits), kernels.doubles(model.leaves)];
  const cues = kernels.integers(model.cues);
  kernels.loops.treeOdds(values, rows, columns, base, depth, model.leaves.length / 2 ** depth, cues.at, limits.at, leaves.at, out); // prettier-ignore
}

/** A regression is a network without units. */
function byUnits(
  kernels: Kernels,
  model: Network | Logistic,
  values: number,
  rows: number,
  columns: number,
  out: number,
): void {
  const count = model.weights.length;
  const units = 'hidden' in model ? model : { hidden: [], thresholds: [], out: [] };
  const [mean, scale, weights, few] = [model.mean, model.scale, model.weights, count].map((v) => kernels.doubles(v).at);
  const [hidden, thresholds, counts] = [units.hidden, units.thresholds, units.out].map((v) => kernels.doubles(v).at);
  kernels.loops.unitOdds(values, rows, columns, count, LIMIT, mean, scale, weights, model.bias, hidden, thresholds, counts, units.out.length, few, out); // prettier-ignore
}
