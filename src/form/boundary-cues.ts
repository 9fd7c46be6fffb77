import { borrowKernels } from '../signal/index.js';
import { LAYERS, type Layer } from '../units/index.js';
import { PARTS, type BarFeatures } from './bars.js';
import { comparedParts } from './compared-parts.js';
import { absolute, beside, change, fold, height, ramp, ranks, shifted, sum } from './curves.js';
import { groupChanges, LASTING_CUES, lastingChanges } from './lasting-changes.js';
import type { LayerTrack } from './layers.js';
import { accent, dropOut } from './one-cues.js';
import { GROUPS, type StepTable } from './steps.js';

/** Half-sizes of the checkerboard kernels in bars. */
const HALVES = [1, 2, 4, 8, 16] as const;
const RANKED = [2, 4, 8] as const;
const FOLDS = [4, 8, 16] as const;
const RANGES: readonly (readonly [name: string, first: number, last: number])[] = [
  ['low', 0, 3],
  ['mid', 3, 8],
  ['high', 8, GROUPS],
];
const SPANS = [1, 2, 4] as const;
const FILL_PARTS = ['mid', 'high', 'rhythm'] as const;

const CURVES: readonly string[] = [
  ...PARTS.flatMap((p) => HALVES.map((h) => `novelty ${p} ${h}`)),
  ...PARTS.map((p) => `height ${p}`),
  ...RANKED.map((h) => `rank ${h}`),
  ...RANGES.flatMap(([r]) => SPANS.map((s) => `change ${r} ${s}`)),
  ...RANGES.map(([r]) => `rise ${r}`),
  ...RANGES.map(([r]) => `change elsewhere ${r}`),
  ...LAYERS.map((l) => `layer ${l}`),
  'layers at the bar',
  'layers beside it',
  ...FILL_PARTS.map((p) => `fill before ${p}`),
  ...FILL_PARTS.map((p) => `fill here ${p}`),
  ...RANGES.map(([r]) => `accent ${r}`),
  ...RANGES.map(([r]) => `drop-out ${r}`),
  ...RANGES.map(([r]) => `ramp ${r}`),
  ...FOLDS.flatMap((m) => [`fold ${m} novelty`, `fold ${m} layers`, `fold ${m} fills`]),
  'near an end',
  'passage begins',
  'passage ends',
  'passage known',
  'height of begins',
  'fold 4 begins',
  'fold 8 begins',
  'largest group change',
  'second group change',
  'third group change',
  'groups changed',
  'group changes beside',
  'height of group changes',
  ...LASTING_CUES,
];

/** Names of the cues in their order: each curve, and how far it stands above the bars next to it. Weights are fitted on them. */
export const BOUNDARY_CUES: readonly string[] = [...CURVES, ...CURVES.map((c) => `crest of ${c}`)];

/** Cues of each bar for "something starts here": `values[bar * columns + cue]`. */
export interface BoundaryCues {
  readonly values: Float32Array;
  readonly columns: number;
}

/** Describes the passage from bar b − 1 to bar b for every bar. */
export function boundaryCues(
  features: BarFeatures,
  steps: StepTable,
  layers: Readonly<Record<Layer, LayerTrack>>,
): BoundaryCues {
  const n = features.bars;
  const compared = comparedParts(features, HALVES);
  const columns: Float64Array[] = [];
  const novelty = PARTS.map((p) => compared.novelty[p]);
  novelty.forEach((sizes) => columns.push(...sizes));
  novelty.forEach((sizes) => columns.push(height(sizes[2])));
  const all = HALVES.map((_, k) => sum(novelty.map((sizes) => sizes[k])));
  for (const h of RANKED) columns.push(ranks(all[HALVES.indexOf(h)]));
  const level = RANGES.map(([, first, last]) => rangeLevel(features, first, last));
  for (const l of level) for (const s of SPANS) columns.push(absolute(change(l, s)));
  for (const l of level) columns.push(change(l, 2));
  for (const l of level) columns.push(beside(absolute(change(l, 1))));
  const steps1 = LAYERS.map((l) => layerStep(layers[l]));
  columns.push(...steps1);
  const layerSum = sum(steps1);
  columns.push(layerSum, beside(layerSum));
  const fills = FILL_PARTS.map((p) => compared.breaks[p]);
  columns.push(...fills, ...fills.map(shifted));
  for (const [, first, last] of RANGES) columns.push(accent(steps, n, first, last));
  for (const [, first, last] of RANGES) columns.push(dropOut(steps, n, first, last));
  for (const l of level) columns.push(ramp(l));
  const squared = all[1].map((v, b) => Math.max(0, v + all[2][b]) ** 2);
  for (const m of FOLDS) columns.push(fold(squared, m), fold(layerSum, m), fold(sum(fills), m));
  columns.push(nearEnds(n));
  const { begins, ends, known } = compared.returns;
  columns.push(begins, ends, known, height(begins), fold(begins, 4), fold(begins, 8));
  const [largest, second, third, count] = groupChanges(features);
  columns.push(largest, second, third, count, beside(count), height(largest));
  columns.push(...lastingChanges(features));
  return withCrests(columns, n);
}

/** The curves side by side, and behind them how far each stands above the higher of its two neighbours. */
function withCrests(curves: readonly Float64Array[], bars: number): BoundaryCues {
  const columns = 2 * curves.length;
  const kernels = borrowKernels(8 * curves.length * bars + 4 * columns * bars);
  const [rows, out] = [kernels.doubles(curves.length * bars), kernels.floats(columns * bars)];
  curves.forEach((curve, k) => rows.view.set(curve, k * bars));
  kernels.loops.crests(rows.at, curves.length, bars, out.at);
  return { values: out.view.slice(), columns };
}

function nearEnds(bars: number): Float64Array {
  const out = new Float64Array(bars);
  for (let b = 0; b < bars; b++) out[b] = b < 4 || b > bars - 4 ? 1 : 0;
  return out;
}

function rangeLevel({ level, bars }: BarFeatures, first: number, last: number): Float64Array {
  const out = new Float64Array(bars);
  for (let b = 0; b < bars; b++) out[b] = meanOf(level.values, b * level.columns, first, last);
  return out;
}

function meanOf(values: Float32Array, row: number, first: number, last: number): number {
  let s = 0;
  for (let g = first; g < last; g++) s += values[row + g];
  return s / (last - first);
}

/** How much the presence of a layer differs between the bar before and the bar at b, from 0 to 1. */
function layerStep({ presence }: LayerTrack): Float64Array {
  const out = new Float64Array(presence.length);
  for (let b = 1; b < out.length; b++) out[b] = Math.abs(presence[b] - presence[b - 1]);
  return out;
}
