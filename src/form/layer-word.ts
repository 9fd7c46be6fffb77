import { LAYERS, type Layer } from '../units/index.js';
import type { Grid } from '../rhythm/index.js';
import { barOfBeat, type Switch } from './events.js';
import type { EventConstraint } from './form.js';
import { AROUND_BARS, type LayerWord } from './layer-evidence.js';
import { nearestBar, nearestBeat } from './nearest-bar.js';

/** What a person has said of each layer; layers that nobody spoke of are left out. */
export function layerWords(grid: Grid, events: readonly EventConstraint[] = []): Partial<Record<Layer, LayerWord>> {
  const out: Partial<Record<Layer, LayerWord>> = {};
  for (const layer of LAYERS) {
    const own = events.filter((e) => e.layer === layer);
    if (own.length === 0) continue;
    const switches = new Map<number, 0 | 1>();
    const none = [new Set<number>(), new Set<number>()] as const;
    const mistaken: { bar: number; way: 0 | 1 }[] = [];
    for (const { time, change, happens } of own) {
      const way = change === 'enters' ? 1 : 0;
      const bar = barOfEvent(grid, time);
      if (happens) switches.set(bar, way);
      else {
        mistaken.push({ bar, way });
        for (let b = bar - AROUND_BARS; b <= bar + AROUND_BARS; b++) none[way].add(b);
      }
    }
    out[layer] = { switches, none, mistaken };
  }
  return out;
}

/** Moves the switches that a person has set to the beat that was said; they are as sure as a person's word. */
export function withToldBeats(grid: Grid, switches: readonly Switch[], events: readonly EventConstraint[]): Switch[] {
  const told = events.filter((e) => e.happens);
  return switches.map((s) => {
    const word = told.find(
      (e) => e.layer === s.layer && (e.change === 'enters') === s.enters && barOfEvent(grid, e.time) === s.barIndex,
    );
    return word ? { ...s, beatIndex: nearestBeat(grid, word.time), confidence: 1 } : s;
  });
}

/** The bar with which a layer switches that does so on the beat nearest to a time: from the middle of a bar on, the next. */
function barOfEvent(grid: Grid, time: number): number {
  const beat = nearestBeat(grid, time);
  const bar = barOfBeat(grid, beat);
  return grid.bars[bar].firstBeat === beat ? bar : nearestBar(grid, time);
}
