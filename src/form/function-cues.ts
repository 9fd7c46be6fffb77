import { LAYERS, type Layer } from '../units/index.js';
import type { BarFeatures } from './bars.js';
import type { LayerTrack } from './layers.js';

const DRUMS_AND_PITCH = ['kick', 'bass', 'percussion', 'harmony'] as const;

/** Names of what a phrase's function is judged by; weights rest on the order. */
export const FUNCTION_CUES: readonly string[] = [
  'one',
  'first',
  'last',
  'second',
  'last but one',
  ...LAYERS,
  'full',
  ...DRUMS_AND_PITCH.map((l) => `previous ${l}`),
  ...DRUMS_AND_PITCH.map((l) => `next ${l}`),
  'previous full',
  'next full',
  'full two before',
  'full two after',
  'fullest before',
  'fullest after',
  'layers more than previous',
  'layers fewer than next',
  'most layers before',
  'most layers after',
  'level',
  'low level',
  'middle level',
  'high level',
  'louder than previous',
  'next louder',
  'ramp',
  'short',
  'position',
];

/**
 * Cue vectors of the phrases that start at the given bars (indices) and end where the next starts, the last with the
 * bars. Levels are log10 of power, against the track's loudest phrase where they are not differences.
 */
export function functionCues(
  features: BarFeatures,
  layers: Readonly<Record<Layer, LayerTrack>>,
  starts: readonly number[],
): number[][] {
  const ends = [...starts.slice(1), features.bars];
  const { values, columns } = features.level;
  const level = (from: number, to: number, first: number, last: number) => {
    let s = 0;
    for (let b = from; b < to; b++) for (let g = first; g < last; g++) s += values[b * columns + g];
    return s / Math.max((to - from) * (last - first), 1);
  };
  const levels = (first: number, last: number) => starts.map((s, i) => level(s, ends[i], first, last));
  const presence = Object.fromEntries(
    LAYERS.map((l) => [l, starts.map((s, i) => meanOf(layers[l].presence, s, ends[i]))]),
  );
  const [kick, bass, percussion, harmony] = DRUMS_AND_PITCH.map((l) => presence[l]);
  const full = kick.map((k, i) => k * bass[i]);
  const count = starts.map((_, i) => LAYERS.reduce((s, l) => s + presence[l][i], 0));
  const [all, low, middle, high] = [levels(0, columns), levels(0, 3), levels(3, 7), levels(6, columns)];
  const most = (list: readonly number[]) => Math.max(0, ...list);
  const under = (list: readonly number[], i: number) => list[i] - Math.max(...list);
  const at = (list: readonly number[], i: number) => list[i] ?? 0;
  return starts.map((s, i) => {
    const quarter = Math.max(1, Math.floor((ends[i] - s) / 4));
    return [
      1,
      i === 0 ? 1 : 0,
      i === starts.length - 1 ? 1 : 0,
      i === 1 ? 1 : 0,
      i === starts.length - 2 ? 1 : 0,
      ...LAYERS.map((l) => presence[l][i]),
      full[i],
      ...[kick, bass, percussion, harmony].map((p) => at(p, i - 1)),
      ...[kick, bass, percussion, harmony].map((p) => at(p, i + 1)),
      at(full, i - 1),
      at(full, i + 1),
      at(full, i - 2),
      at(full, i + 2),
      most(full.slice(0, i)),
      most(full.slice(i + 1)),
      count[i] - at(count, i - 1),
      at(count, i + 1) - count[i],
      most(count.slice(0, i)) / LAYERS.length,
      most(count.slice(i + 1)) / LAYERS.length,
      under(all, i),
      under(low, i),
      under(middle, i),
      under(high, i),
      all[i] - (all[i - 1] ?? all[i]),
      (all[i + 1] ?? all[i]) - all[i],
      level(ends[i] - quarter, ends[i], 6, columns) - level(s, s + quarter, 6, columns),
      Math.min(1, 8 / (ends[i] - s)),
      s / features.bars,
    ];
  });
}

function meanOf(curve: Float64Array, from: number, to: number): number {
  let s = 0;
  for (let b = from; b < to; b++) s += curve[b];
  return s / Math.max(to - from, 1);
}
