import { describe, expect, it } from 'vitest';
import { settleLayers, smooth, type LayerTrack } from '../../src/form/layers.js';
import { LAYERS, type Layer } from '../../src/units/index.js';

/** Log-odds by bars: `course([8, -2], [8, 2])`. */
function course(...stretches: readonly (readonly [bars: number, odds: number])[]): Float64Array {
  return Float64Array.from(stretches.flatMap(([bars, odds]) => new Array<number>(bars).fill(odds)));
}

function tracks(odds: Float64Array): Record<Layer, LayerTrack> {
  const all = LAYERS.map((layer) => [layer, { layer, odds, ...smooth(odds) }]);
  return Object.fromEntries(all) as Record<Layer, LayerTrack>;
}

/** Bars (indices) with which a layer comes or goes. */
function switches(on: Uint8Array): number[] {
  return Array.from(on.keys()).filter((b) => on[b] !== (b === 0 ? 0 : on[b - 1]));
}

/** A share of 1 at each of the bars. */
function starts(bars: number, ...at: readonly number[]): Float64Array {
  return Float64Array.from({ length: bars }, (_, b) => (at.includes(b) ? 1 : 0));
}

describe('layers that know the phrases', () => {
  it('come in with the phrase where the bar before it is in doubt', () => {
    const odds = course([7, -2.5], [1, 0.4], [8, 2.5]);
    expect(switches(tracks(odds).bass.on)).toEqual([7]);
    expect(switches(settleLayers(tracks(odds), starts(16, 8)).bass.on)).toEqual([8]);
  });

  it('come and go inside a phrase where many bars say so', () => {
    const odds = course([4, -2.5], [12, 2.5]);
    expect(switches(settleLayers(tracks(odds), starts(16, 8)).percussion.on)).toEqual([4]);
  });

  it('are heard for one faint phrase between two starts, where smoothing alone hears none', () => {
    const odds = course([8, -2.5], [8, 0.3], [8, -2.5]);
    expect(switches(tracks(odds).voice.on)).toEqual([]);
    expect(switches(settleLayers(tracks(odds), starts(24, 8, 16)).voice.on)).toEqual([8, 16]);
  });

  it('keep to a bar that a person has set, wherever it is', () => {
    const odds = course([16, 2.5]);
    const word = {
      switches: new Map([[5, 1 as const]]),
      none: [new Set<number>(), new Set<number>()] as const,
      mistaken: [],
    };
    expect(switches(settleLayers(tracks(odds), starts(16, 8), { harmony: word }).harmony.on)).toContain(5);
  });
});
