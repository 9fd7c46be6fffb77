import type { Fraction, Layer } from '../units/index.js';
import type { Grid } from '../rhythm/index.js';
import type { Reading } from './decode.js';
import { contrast, type Switch } from './events.js';
import type { FormIrregularity } from './form.js';
import { networkOdds, sigmoid, type Network } from '../learned/index.js';
import { pickUpCues } from './pick-up-cues.js';
import type { LayerTrack } from './layers.js';
import type { StepTable } from './steps.js';

/** A pick-up is told from this probability on: a false alarm costs more than a pick-up missed. */
const LEAST_SHARE: Fraction = 0.6;

/** A drum fill before the one is no entry of the percussion. */
const PICKING_UP: readonly Layer[] = ['kick', 'bass', 'harmony', 'voice'];

/** A layer's mean presence rises by this much over a phrase start at which it enters; bars that are compared. */
const ENTRY: Fraction = 0.4;
const BARS_AFTER = 2;
const BARS_BEFORE = 3;

/** Something that starts a few beats before the one of a phrase. */
export interface PickUp {
  /** Index of the bar whose one it leads to. */
  readonly barIndex: number;
  readonly beats: number;
  readonly share: Fraction;
}

/**
 * Weighs, before every phrase start at which something enters, a pick-up of each possible number of beats by a fitted score:
 * a pick-up is an entry that comes early.
 */
export function findPickUps(
  grid: Grid,
  steps: StepTable,
  reading: Reading,
  layers: Readonly<Record<Layer, LayerTrack>>,
  weights: Network,
): PickUp[] {
  const out: PickUp[] = [];
  for (const barIndex of reading.phraseStarts.slice(1)) {
    if (!PICKING_UP.some((layer) => entersAround(layers[layer].presence, barIndex))) continue;
    let best: PickUp = { barIndex, beats: 0, share: 0 };
    for (let beats = 1; beats < grid.bars[barIndex - 1].beats; beats++) {
      const share = sigmoid(networkOdds(weights, pickUpCues(grid, steps, barIndex, beats)));
      if (share > best.share) best = { barIndex, beats, share };
    }
    if (best.share >= LEAST_SHARE) out.push(best);
  }
  return out;
}

/** Whether a layer enters with a bar; the bar before it is left out, as an early entry sounds in it already. */
function entersAround(presence: Float64Array, bar: number): boolean {
  const mean = (from: number, to: number) => {
    const part = presence.slice(Math.max(from, 0), to);
    return part.length > 0 ? part.reduce((a, p) => a + p, 0) / part.length : 0;
  };
  return mean(bar, bar + BARS_AFTER) - mean(bar - BARS_BEFORE, bar - 1) > ENTRY;
}

/**
 * Moves layers that enter around a pick-up to the beat at which it starts: of those that enter within a bar of the one,
 * all whose level is higher in the pick-up than before it, at least the one that rises most.
 */
export function withPickUps(
  grid: Grid,
  steps: StepTable,
  switches: readonly Switch[],
  pickUps: readonly PickUp[],
): Switch[] {
  const moved = new Map<Switch, Switch>();
  for (const { barIndex, beats } of pickUps) {
    const beatIndex = grid.bars[barIndex].firstBeat - beats;
    const rises = switches
      .filter((s) => s.enters && Math.abs(s.barIndex - barIndex) <= 1 && PICKING_UP.includes(s.layer))
      .map((s) => ({ s, rise: contrast(grid, steps, s.layer, beatIndex, beats / grid.metre.beatsPerBar) }))
      .sort((a, b) => b.rise - a.rise);
    rises.forEach(({ s, rise }, i) => {
      if (i === 0 || rise >= FIRM_DECIBELS) moved.set(s, { ...s, beatIndex });
    });
  }
  return switches.map((s) => moved.get(s) ?? s).sort((a, b) => a.beatIndex - b.beatIndex);
}

/** A layer whose groups rise by this much where the pick-up starts takes part in it. */
const FIRM_DECIBELS = 3;

/** Pick-ups as irregularities of the contract. */
export function pickUpIrregularities(grid: Grid, reading: Reading, pickUps: readonly PickUp[]): FormIrregularity[] {
  return pickUps.map(({ barIndex, beats, share }) => {
    const bar = grid.bars[barIndex];
    return {
      kind: 'pick-up',
      bar: bar.number,
      time: bar.start,
      startTime: grid.beats[bar.firstBeat - beats],
      beats,
      confidence: share,
      evidence: {
        pickUpShare: Math.round(share * 100) / 100,
        phraseStartShare: Math.round(reading.phrasePosterior[barIndex] * 100) / 100,
      },
    };
  });
}
