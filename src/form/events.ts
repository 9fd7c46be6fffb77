import { LAYERS, type Layer } from '../units/index.js';
import type { Grid } from '../rhythm/index.js';
import type { LayerEvent } from './form.js';
import type { LayerTrack } from './layers.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Groups of frequencies in which a layer's level is told, first inclusive, last exclusive. */
const LAYER_GROUPS: Readonly<Record<Layer, readonly [number, number]>> = {
  kick: [0, 2],
  bass: [0, 3],
  percussion: [7, GROUPS],
  harmony: [3, 8],
  voice: [4, 9],
};

/** Level of silence in dB under the loud end of a group. */
const FLOOR_POWER = 1e-4;

/** Bars on either side that a level is averaged over. */
const SPAN_BARS = 2;

/** Contrast in dB by which another beat than the one must explain a change better before it is believed. */
const BEAT_MARGIN = 3;

/** Where a layer switches, with the beat that explains its level best. */
export interface Switch {
  readonly layer: Layer;
  readonly enters: boolean;
  /** Index of the bar in which the smoothed layer switches. */
  readonly barIndex: number;
  /** Index into `Grid.beats` of the moment itself. */
  readonly beatIndex: number;
  readonly decibels: number;
  readonly confidence: number;
}

/**
 * Every switch of every layer. What sounds in the first bar enters there; the end of the music is no exit. What switches
 * with a phrase does so on its one: a fill, a breath or a tail around it would be believed before it on one in fifteen of
 * those. Pick-ups are told apart by their own score.
 * @param phraseStarts indices of bars
 */
export function layerSwitches(
  grid: Grid,
  steps: StepTable,
  layers: Readonly<Record<Layer, LayerTrack>>,
  phraseStarts: readonly number[] = [],
): Switch[] {
  const out: Switch[] = [];
  const musicEnds = lastSoundingBar(steps) + 1;
  for (const layer of LAYERS) {
    const { on, presence } = layers[layer];
    for (let b = 0; b < on.length; b++) {
      if (on[b] === (b === 0 ? 0 : on[b - 1]) || b >= musicEnds) continue;
      const enters = on[b] === 1;
      const onTheOne = b === 0 || phraseStarts.includes(b);
      const beatIndex = onTheOne ? grid.bars[b].firstBeat : momentOf(grid, steps, layer, b, enters);
      const before = b === 0 ? 0 : meanOf(presence, b - SPAN_BARS, b);
      const after = meanOf(presence, b, b + SPAN_BARS);
      out.push({
        layer,
        enters,
        barIndex: b,
        beatIndex,
        decibels: contrast(grid, steps, layer, beatIndex),
        confidence: enters ? after * (1 - before) : before * (1 - after),
      });
    }
  }
  return out.sort((a, b) => a.beatIndex - b.beatIndex || LAYERS.indexOf(a.layer) - LAYERS.indexOf(b.layer));
}

/** Switches as events of the contract. */
export function layerEvents(grid: Grid, switches: readonly Switch[]): LayerEvent[] {
  return switches.map(({ layer, enters, beatIndex, decibels, confidence }) => {
    const index = barOfBeat(grid, beatIndex);
    const bar = grid.bars[index];
    return {
      time: grid.beats[beatIndex],
      bar: bar.number,
      beat: beatIndex - bar.firstBeat + 1,
      layer,
      change: enters ? 'enters' : 'leaves',
      decibels: Math.round(decibels * 10) / 10,
      confidence,
    };
  });
}

/** Index of the bar that holds a beat. */
export function barOfBeat(grid: Grid, beatIndex: number): number {
  let lo = 0;
  let hi = grid.bars.length - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (grid.bars[mid].firstBeat <= beatIndex) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}

/** The beat around bar b at which the layer's level changes most, the one being preferred. */
function momentOf(grid: Grid, steps: StepTable, layer: Layer, b: number, enters: boolean): number {
  const one = grid.bars[b].firstBeat;
  const sign = enters ? 1 : -1;
  const atOne = sign * contrast(grid, steps, layer, one);
  let best = one;
  let value = atOne + BEAT_MARGIN;
  const end = b + 1 < grid.bars.length ? grid.bars[b + 1].firstBeat : one;
  for (let beat = grid.bars[b - 1].firstBeat; beat <= end; beat++) {
    const c = sign * contrast(grid, steps, layer, beat);
    if (c > value) {
      value = c;
      best = beat;
    }
  }
  return best;
}

/** Level of the layer's groups after a beat less that before it, in dB, over `spanBars` bars each. */
export function contrast(grid: Grid, steps: StepTable, layer: Layer, beatIndex: number, spanBars = SPAN_BARS): number {
  const row = (beatIndex - grid.bars[0].firstBeat) * STEPS_PER_BEAT;
  const span = Math.round(spanBars * grid.metre.beatsPerBar * STEPS_PER_BEAT);
  const [first, last] = LAYER_GROUPS[layer];
  const level = (from: number, to: number) => {
    let sum = 0;
    let n = 0;
    for (let r = Math.max(from, 0); r < Math.min(to, steps.rows); r++)
      for (let g = first; g < last; g++) {
        sum += 10 * Math.log10(steps.power[r * GROUPS + g] + FLOOR_POWER);
        n++;
      }
    return n > 0 ? sum / n : 10 * Math.log10(FLOOR_POWER);
  };
  return level(row, row + span) - level(row - span, row);
}

function lastSoundingBar(steps: StepTable): number {
  for (let b = steps.barRow.length - 2; b >= 0; b--)
    for (let i = steps.barRow[b] * GROUPS; i < steps.barRow[b + 1] * GROUPS; i++) if (steps.power[i] > 1e-3) return b;
  return -1;
}

function meanOf(curve: Float64Array, from: number, to: number): number {
  let s = 0;
  let n = 0;
  for (let b = Math.max(from, 0); b < Math.min(to, curve.length); b++) {
    s += curve[b];
    n++;
  }
  return n > 0 ? s / n : 0;
}
