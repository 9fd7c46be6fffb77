import { SECTION_FUNCTIONS, type Fraction, type Layer, type SectionFunction } from '../units/index.js';
import type { BarFeatures } from './bars.js';
import type { LayerTrack } from './layers.js';

/** Names of what a section is judged by; weights rest on the order. */
export const FUNCTION_CUES = [
  'one',
  'first',
  'last',
  'kick',
  'bass',
  'percussion',
  'harmony',
  'full',
  'level',
  'low level',
  'next full',
  'next louder',
  'previous full',
  'louder than previous',
  'ramp',
  'short',
  'position',
] as const;

/** Weights of each function on the cues, and the log weight of one function following another. */
export interface FunctionWeights {
  readonly cues: Readonly<Record<SectionFunction, readonly number[]>>;
  readonly follows: Readonly<Record<SectionFunction, Readonly<Record<SectionFunction, number>>>>;
}

/** Cue vectors of the sections that start at the given bars (indices). Levels are in units of 10 dB. */
export function functionCues(
  features: BarFeatures,
  layers: Readonly<Record<Layer, LayerTrack>>,
  starts: readonly number[],
): number[][] {
  const ends = [...starts.slice(1), features.bars];
  const mean = (curve: (b: number) => number, from: number, to: number) => {
    let s = 0;
    for (let b = from; b < to; b++) s += curve(b);
    return s / Math.max(to - from, 1);
  };
  const level = (first: number, last: number) => (b: number) => {
    let s = 0;
    for (let g = first; g < last; g++) s += features.level.values[b * features.level.columns + g];
    return s / (last - first);
  };
  const all = level(0, features.level.columns);
  const low = level(0, 3);
  const high = level(6, features.level.columns);
  const presence = (l: Layer) => starts.map((s, i) => mean((b) => layers[l].presence[b], s, ends[i]));
  const [kick, bass, percussion, harmony] = (['kick', 'bass', 'percussion', 'harmony'] as const).map(presence);
  const levels = starts.map((s, i) => mean(all, s, ends[i]));
  const lows = starts.map((s, i) => mean(low, s, ends[i]));
  const top = Math.max(...levels);
  const topLow = Math.max(...lows);
  const full = kick.map((k, i) => k * bass[i]);
  return starts.map((s, i) => {
    const quarter = Math.max(1, Math.floor((ends[i] - s) / 4));
    return [
      1,
      i === 0 ? 1 : 0,
      i === starts.length - 1 ? 1 : 0,
      kick[i],
      bass[i],
      percussion[i],
      harmony[i],
      full[i],
      levels[i] - top,
      lows[i] - topLow,
      full[i + 1] ?? 0,
      (levels[i + 1] ?? levels[i]) - levels[i],
      full[i - 1] ?? 0,
      levels[i] - (levels[i - 1] ?? levels[i]),
      mean(high, ends[i] - quarter, ends[i]) - mean(high, s, s + quarter),
      Math.min(1, 8 / (ends[i] - s)),
      s / features.bars,
    ];
  });
}

/** The most likely functions of a row of sections, and how likely each is; `fixed` holds a person's word. */
export function sectionFunctions(
  cues: readonly (readonly number[])[],
  weights: FunctionWeights,
  fixed: readonly (SectionFunction | null)[],
): { readonly function: SectionFunction; readonly confidence: Fraction }[] {
  const n = cues.length;
  const names = SECTION_FUNCTIONS;
  const own = cues.map((c, i) =>
    names.map((f) => (fixed[i] !== null && fixed[i] !== f ? -1e6 : dot(weights.cues[f], c))),
  );
  const step = names.map((a) => names.map((b) => weights.follows[a][b]));
  const best: number[][] = [];
  const from: number[][] = [];
  const forward: number[][] = [];
  for (let i = 0; i < n; i++) {
    const into = (table: number[][], b: number) => names.map((_, a) => table[i - 1][a] + step[a][b]);
    best.push(names.map((_, b) => own[i][b] + (i > 0 ? Math.max(...into(best, b)) : 0)));
    from.push(names.map((_, b) => (i > 0 ? indexOfMax(into(best, b)) : 0)));
    forward.push(names.map((_, b) => own[i][b] + (i > 0 ? logSum(into(forward, b)) : 0)));
  }
  const backward: number[][] = new Array<number[]>(n);
  for (let i = n - 1; i >= 0; i--)
    backward[i] = names.map((_, a) =>
      i === n - 1 ? 0 : logSum(names.map((_, b) => step[a][b] + own[i + 1][b] + backward[i + 1][b])),
    );
  const path = new Array<number>(n);
  for (let i = n - 1; i >= 0; i--) path[i] = i === n - 1 ? indexOfMax(best[i]) : from[i + 1][path[i + 1]];
  return path.map((f, i) => {
    const joint = names.map((_, k) => forward[i][k] + backward[i][k]);
    return { function: names[f], confidence: Math.exp(joint[f] - logSum(joint)) };
  });
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((s, v, i) => s + v * b[i], 0);
}

function indexOfMax(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

function logSum(values: readonly number[]): number {
  const top = Math.max(...values);
  return top + Math.log(values.reduce((s, v) => s + Math.exp(v - top), 0));
}
