import { LAYERS, type Layer } from '../units/index.js';
import type { Grid } from '../rhythm/index.js';
import { barOfBeat, type Switch } from './events.js';
import type { EventConstraint } from './form.js';
import { nearestBar, nearestBeat } from './nearest-bar.js';

/** An event that does not happen does not happen this many bars to either side: else it would only move next door. */
const AROUND_BARS = 2;

/** A person's word on the course of one layer, by indices of bars. */
export interface LayerWord {
  /** The layer enters (1) or leaves (0) with this bar. */
  readonly switches: ReadonlyMap<number, 0 | 1>;
  /** The layer neither enters with these bars (1) nor leaves (0). */
  readonly none: readonly [leaves: ReadonlySet<number>, enters: ReadonlySet<number>];
  /** Around these bars, and as long as it goes on, what sounds like the layer (1) or its absence (0) is something else. */
  readonly mistaken: readonly { readonly bar: number; readonly way: 0 | 1 }[];
}

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

/**
 * Takes the evidence away that was mistaken: from the place on until it turns for two bars, or another word stands against it.
 * @param odds log-odds of each bar, changed in place
 */
export function dropMistaken(odds: Float64Array, { mistaken, switches }: LayerWord): void {
  for (const { bar, way } of mistaken) {
    const speaks = (b: number) => (way === 1 ? odds[b] > 0 : odds[b] < 0);
    let against = 0;
    for (let b = Math.max(bar - AROUND_BARS, 0); b < odds.length && against < 2; b++) {
      if (b > bar && switches.has(b)) break;
      const near = b <= bar + AROUND_BARS;
      against = speaks(b) || near ? 0 : against + 1;
      if (speaks(b)) odds[b] = 0;
    }
  }
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
