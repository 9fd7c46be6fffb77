import { LAYERS, type Layer } from '../units/index.js';
import { PARTS, type BarFeatures } from './bars.js';
import { LASTING_CUES, lastingChanges } from './lasting-changes.js';
import type { LayerTrack } from './layers.js';
import { findReturns, meanSimilarity } from './returns.js';
import { bandedSimilarity, checkerboard, similarityAt, type BandedSimilarity } from './similarity.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Half-sizes of the checkerboard kernels in bars. */
const HALVES = [1, 2, 4, 8, 16] as const;
const RANKED = [2, 4, 8] as const;
const FOLDS = [4, 8, 16] as const;
/** A bar's phase is judged from bars no further away than this, so that a reset elsewhere does not blur it. */
const FOLD_REACH = 48;
/** Bars are compared up to this far apart: kernels need 31, passages that return a few minutes. */
const REACH = 256;
/** A group of frequencies that changes by this much (log10 of power) for good counts as changed. */
const CHANGED = 0.25;
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
  const similarity = Object.fromEntries(
    PARTS.map((p) => [p, bandedSimilarity(features[p], n, Math.min(REACH, Math.max(n - 1, 1)))]),
  ) as Record<(typeof PARTS)[number], BandedSimilarity>;
  const columns: ArrayLike<number>[] = [];
  const novelty = PARTS.map((p) => HALVES.map((h) => checkerboard(similarity[p], h).map((v) => v / (2 * h * h))));
  novelty.forEach((sizes) => columns.push(...sizes));
  novelty.forEach((sizes) => columns.push(height(sizes[2])));
  const all = HALVES.map((_, k) => sum(novelty.map((sizes) => sizes[k])));
  for (const h of RANKED) columns.push(ranks(all[HALVES.indexOf(h)]));
  const level = RANGES.map(([, first, last]) => rangeLevel(features, first, last));
  for (const l of level) for (const s of SPANS) columns.push(change(l, s).map(Math.abs));
  for (const l of level) columns.push(change(l, 2));
  for (const l of level) columns.push(beside(change(l, 1).map(Math.abs)));
  const steps1 = LAYERS.map((l) => layerStep(layers[l]));
  columns.push(...steps1);
  const layerSum = sum(steps1);
  columns.push(layerSum, beside(layerSum));
  const fills = FILL_PARTS.map((p) => fillBefore(similarity[p]));
  columns.push(...fills, ...fills.map((f) => shifted(f, 1)));
  for (const [, first, last] of RANGES) columns.push(accent(steps, n, first, last));
  for (const [, first, last] of RANGES) columns.push(dropOut(steps, n, first, last));
  for (const l of level) columns.push(ramp(l));
  const squared = all[1].map((v, b) => Math.max(0, v + all[2][b]) ** 2);
  for (const m of FOLDS) columns.push(fold(squared, m), fold(layerSum, m), fold(sum(fills), m));
  columns.push(Float64Array.from({ length: n }, (_, b) => (b < 4 || b > n - 4 ? 1 : 0)));
  const returns = findReturns(meanSimilarity(PARTS.map((p) => similarity[p])));
  columns.push(returns.begins, returns.ends, returns.known, height(returns.begins));
  columns.push(fold(returns.begins, 4), fold(returns.begins, 8));
  const groups = groupChanges(features);
  columns.push(groups.first, groups.second, groups.third, groups.count, beside(groups.count), height(groups.first));
  columns.push(...lastingChanges(features));
  return withCrests(columns, n);
}

/** The curves side by side, and behind them how far each stands above the higher of its two neighbours. */
function withCrests(curves: readonly ArrayLike<number>[], bars: number): BoundaryCues {
  const columns = 2 * curves.length;
  const values = new Float32Array(bars * columns);
  curves.forEach((curve, k) => {
    for (let b = 0; b < bars; b++) {
      const before = curve[Math.max(b - 1, 0)];
      const after = curve[Math.min(b + 1, bars - 1)];
      values[b * columns + k] = curve[b];
      values[b * columns + curves.length + k] = curve[b] - Math.max(before, after);
    }
  });
  return { values, columns };
}

function sum(curves: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(curves[0].length);
  for (const curve of curves) addTo(out, curve);
  return out;
}

function addTo(out: Float64Array, curve: Float64Array): void {
  for (let b = 0; b < out.length; b++) out[b] += curve[b];
}

function shifted(curve: Float64Array, by: number): Float64Array {
  return curve.map((_, b) => curve[Math.min(Math.max(b + by, 0), curve.length - 1)]);
}

/** Largest value within two bars, the bar itself left out. */
function beside(curve: Float64Array): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) {
    let most = 0;
    const last = Math.min(b + 2, out.length - 1);
    for (let k = Math.max(b - 2, 0); k <= last; k++) if (k !== b && curve[k] > most) most = curve[k];
    out[b] = most;
  }
  return out;
}

function height(curve: Float64Array): Float64Array {
  const neighbours = beside(curve);
  return curve.map((v, b) => v - neighbours[b]);
}

/** Share of the track's bars with a smaller value. */
function ranks(curve: Float64Array): Float64Array {
  const order = Array.from(curve.keys()).sort((a, b) => curve[a] - curve[b]);
  const out = new Float64Array(curve.length);
  order.forEach((b, i) => (out[b] = i / Math.max(curve.length - 1, 1)));
  return out;
}

function rangeLevel({ level, bars }: BarFeatures, first: number, last: number): Float64Array {
  return Float64Array.from({ length: bars }, (_, b) => {
    let s = 0;
    for (let g = first; g < last; g++) s += level.values[b * level.columns + g];
    return s / (last - first);
  });
}

/** Largest lasting changes of single groups of frequencies at each bar: medians of four bars on either side. */
function groupChanges({ level, bars }: BarFeatures) {
  const [first, second, third, count] = [0, 1, 2, 3].map(() => new Float64Array(bars));
  for (let b = 2; b < bars - 1; b++) {
    const changes = Array.from({ length: level.columns }, (_, g) => {
      const at = (k: number) => level.values[k * level.columns + g];
      return Math.abs(medianOf(at, b, Math.min(b + 4, bars)) - medianOf(at, Math.max(b - 4, 0), b));
    }).sort((x, y) => y - x);
    [first[b], second[b], third[b]] = changes;
    count[b] = changes.filter((c) => c > CHANGED).length;
  }
  return { first, second, third, count };
}

/** Lower median of f over from…to − 1. */
function medianOf(f: (k: number) => number, from: number, to: number): number {
  const values = Array.from({ length: to - from }, (_, i) => f(from + i)).sort((x, y) => x - y);
  return values[(values.length - 1) >> 1];
}

/** Mean of the `span` bars from b less that of the `span` bars before; fewer at the ends. */
function change(curve: Float64Array, span: number): Float64Array {
  return curve.map((_, b) => {
    const s = Math.min(span, b, curve.length - b);
    if (s === 0) return 0;
    let d = 0;
    for (let k = 0; k < s; k++) d += curve[b + k] - curve[b - 1 - k];
    return d / s;
  });
}

/** How much the presence of a layer differs between the two bars before and the two bars from b, from 0 to 1. */
function layerStep({ presence }: LayerTrack): Float64Array {
  return presence.map((p, b) => (b === 0 ? 0 : Math.abs(p - presence[b - 1])));
}

/** How unlike its three forerunners the bar before b is, against how alike those are: a fill or a gap. */
function fillBefore(similarity: BandedSimilarity): Float64Array {
  return Float64Array.from({ length: similarity.bars }, (_, b) => {
    if (b < 4) return 0;
    const s = (i: number, j: number) => similarityAt(similarity, i, j);
    const among = (s(b - 4, b - 3) + s(b - 3, b - 2) + s(b - 4, b - 2)) / 3;
    return among - (s(b - 4, b - 1) + s(b - 3, b - 1) + s(b - 2, b - 1)) / 3;
  });
}

function stepLevel(steps: StepTable, from: number, to: number, first: number, last: number): number {
  let s = 0;
  for (let r = Math.max(from, 0); r < Math.min(to, steps.rows); r++)
    for (let g = first; g < last; g++) s += steps.power[r * GROUPS + g];
  return Math.log10(1e-3 + s / Math.max(to - from, 1) / (last - first));
}

/** First beat of bar b against the first beats of the four bars on either side: a crash, an impact. */
function accent(steps: StepTable, bars: number, first: number, last: number): Float64Array {
  const one = Float64Array.from({ length: bars }, (_, b) =>
    stepLevel(steps, steps.barRow[b], steps.barRow[b] + STEPS_PER_BEAT, first, last),
  );
  return one.map((v, b) => {
    const around = one.slice(Math.max(0, b - 4), b + 5).sort();
    return v - around[around.length >> 1];
  });
}

/** Last beat before b against the three bars before that: breath before the one is negative. */
function dropOut(steps: StepTable, bars: number, first: number, last: number): Float64Array {
  return Float64Array.from({ length: bars }, (_, b) => {
    if (b < 2) return 0;
    const end = steps.barRow[b];
    const beat = stepLevel(steps, end - STEPS_PER_BEAT, end, first, last);
    return beat - stepLevel(steps, steps.barRow[Math.max(0, b - 4)], steps.barRow[b - 1], first, last);
  });
}

/** Rise of the level over the four bars before b. */
function ramp(level: Float64Array): Float64Array {
  return level.map((_, b) => (b < 4 ? 0 : level[b - 1] + level[b - 2] - level[b - 3] - level[b - 4]));
}

/** Mean of the curve on the bars around b of the same remainder modulo m, b left out, over the mean of all of them. */
function fold(curve: Float64Array, m: number): Float64Array {
  const mean = curve.reduce((a, v) => a + v, 0) / Math.max(curve.length, 1) || 1;
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) out[b] = foldedAt(curve, b, m, mean);
  return out;
}

function foldedAt(curve: Float64Array, b: number, m: number, mean: number): number {
  let s = 0;
  let k = 0;
  for (let d = m; d <= FOLD_REACH; d += m) {
    if (b - d > 0) {
      s += curve[b - d];
      k++;
    }
    if (b + d < curve.length) {
      s += curve[b + d];
      k++;
    }
  }
  return k > 0 ? s / k / mean : 1;
}
