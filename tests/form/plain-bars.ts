import type { Layer } from '../../src/units/index.js';
import type { LayerBars } from '../../src/form/index.js';
import { GROUPS, STEPS_PER_BEAT, type StepTable } from '../../src/form/steps.js';
import type { Grid } from '../../src/rhythm/index.js';
import { gridFromTruth } from '../support/truth-grid.js';

/** A grid of whole bars of four at 120 BPM. */
export function plainGrid(bars: number): Grid {
  const beats = Array.from({ length: 4 * bars }, (_, i) => i / 2);
  return gridFromTruth({ bpm: 120, beatsPerBar: 4, beats, downbeats: beats.filter((_, i) => i % 4 === 0) });
}

/** Steps of that grid in which every step sounds alike. */
export function plainSteps(bars: number): StepTable {
  const rows = 4 * bars * STEPS_PER_BEAT;
  return {
    power: new Float32Array(rows * GROUPS).fill(0.5),
    flux: new Float32Array(rows * GROUPS).fill(0.1),
    rows,
    barRow: Int32Array.from({ length: bars + 1 }, (_, b) => 4 * STEPS_PER_BEAT * b),
    reference: new Float64Array(GROUPS).fill(1),
  };
}

/** Layers that are in, fully, in the bars for which `plays` says so. */
export function plainLayers(bars: number, plays: (layer: Layer, bar: number) => boolean): LayerBars {
  const of = (layer: Layer) => Array.from({ length: bars }, (_, b) => (plays(layer, b) ? 1 : 0));
  return {
    kick: of('kick'),
    bass: of('bass'),
    percussion: of('percussion'),
    harmony: of('harmony'),
    voice: of('voice'),
  };
}
