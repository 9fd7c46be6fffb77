import {
  renderArrangement,
  type ArrangementTruth,
  type Arrangement,
  type ArrangedPart,
} from '../../src/arranger/index.js';
import { createFrontEnd, loadFft, type FrontEnd } from '../../src/signal/index.js';
import type { Grid } from '../../src/rhythm/index.js';
import type { Layer, SectionFunction } from '../../src/units/index.js';
import { gridFromTruth } from '../support/truth-grid.js';

await loadFft();

/** A rendered arrangement, its front end and its true grid. */
export interface ArrangedTrack {
  readonly truth: ArrangementTruth;
  readonly frontEnd: FrontEnd;
  readonly grid: Grid;
}

/** Renders an arrangement and listens to it. @param gain factor on the samples, to test that it changes nothing */
export function arranged(arrangement: Arrangement, gain = 1): ArrangedTrack {
  const { left, right, truth } = renderArrangement(arrangement);
  return { truth, frontEnd: listenTo(left, right, gain), grid: trueGrid(truth) };
}

export function listenTo(left: Float32Array, right: Float32Array, gain = 1): FrontEnd {
  const builder = createFrontEnd();
  const block = 65_536;
  for (let i = 0; i < left.length; i += block) {
    const part = (side: Float32Array) => side.subarray(i, i + block).map((x) => x * gain);
    builder.push(part(left), part(right));
  }
  return builder.finish();
}

export function trueGrid(truth: ArrangementTruth): Grid {
  return gridFromTruth({
    bpm: truth.bpm,
    beatsPerBar: truth.beatsPerBar,
    beats: truth.beats,
    downbeats: truth.bars.map((b) => b.start),
  });
}

const LETTERS: Readonly<Record<string, Layer>> = {
  k: 'kick',
  p: 'percussion',
  b: 'bass',
  h: 'harmony',
  v: 'voice',
};

/** A part in short: `part('main', [8, 'kpb'], [10, 'kpbh', { addedBars: 2 }])`. */
export function part(
  name: SectionFunction,
  ...phrases: readonly (readonly [bars: number, layers: string, more?: object])[]
): ArrangedPart {
  return {
    function: name,
    phrases: phrases.map(([bars, layers, more]) => ({ bars, layers: [...layers].map((l) => LETTERS[l]), ...more })),
  };
}

/** A short four-to-the-floor arrangement of the given parts. */
export function track(parts: readonly ArrangedPart[], more: Partial<Arrangement> = {}): Arrangement {
  return {
    seed: 71,
    style: 'bright-four',
    bpm: 128,
    beatsPerBar: 4,
    swing: 0.5,
    key: { tonic: 'D', mode: 'minor' },
    progression: [1, 6, 3, 7],
    leadIn: 0.2,
    parts,
    ...more,
  };
}
