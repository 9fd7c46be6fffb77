import type { Fraction, Lufs } from '../../units/index.js';
import { LAYERS } from '../../units/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { keyFit, meetKeys } from '../keys.js';
import { matchTracks, type MatchOptions } from '../match.js';
import type { TrackMatch } from '../places.js';
import { matchTempos, semitonesOf } from '../tempo.js';
import { bestOrder, costOf, type OrderCosts } from './exact.js';
import { goodOrder } from './search.js';
import { predecessors, shapeAt, type OrderWishes } from './wishes.js';

/** What is asked of a running order, beside what is asked of every step of it. @experimental */
export interface OrderOptions extends MatchOptions {
  /** What is wished of the order; nothing by default. */
  readonly wishes?: OrderWishes;
  /** Whether the steps get their plans; default true. For a crate over the exact size they are made for the chosen steps only. */
  readonly withPlans?: boolean;
}

/** A record in the running order. @experimental */
export interface OrderedTrack {
  /** Index in the list that was given. */
  readonly index: number;
  readonly integratedLufs: Lufs | null;
  /** Layers heard in a bar, on average, 0 to 5. */
  readonly density: number;
  /** The wanted place on the curve between softest and loudest, where a shape was wished for. */
  readonly wanted: Fraction | null;
  /** The track's own place on it: its rank among all by loudness and density together. */
  readonly level: Fraction;
}

/** From one record to the next. @experimental */
export interface OrderedStep {
  readonly bpmStep: number;
  /** Within the step that was wished for. */
  readonly withinStep: boolean;
  readonly match: TrackMatch | null;
}

/**
 * Records in the order in which they are best played, and the steps between them: one fewer. `cost` compares orders
 * of the same records only.
 * @experimental
 */
export interface RunningOrder {
  /** In the order in which they are played. */
  readonly tracks: readonly OrderedTrack[];
  /** From each to the next. */
  readonly steps: readonly OrderedStep[];
  /** `exact`: there is none with a smaller cost; `good`: found by search. */
  readonly method: 'exact' | 'good';
  /** Of the whole order; compares orders of the same records only. */
  readonly cost: number;
}

/** Up to so many tracks the best order is found for sure, and every pair is planned. @experimental */
export const EXACT_UP_TO = 13;

/** What a step costs: common practice, no source. */
const COSTS = { tempo: 1, outOfRange: 3, key: 0.6, keyUnknown: 0.3, plan: 1, wish: 100, shape: 4 } as const;

/**
 * A path through a crate that keeps tempo and key steps small and phrase plans good, and obeys wishes.
 * @experimental
 * @param tracks at least one; metres may differ, which costs
 * @throws BarwiseError `contradiction` or `bad-option` for wishes that cannot be met
 * @example orderTracks([a, b, c], { wishes: { start: 2, shape: 'arc' } }).tracks.map((t) => t.index)
 */
export function orderTracks(tracks: readonly TrackAnalysis[], options: OrderOptions = {}): RunningOrder {
  const { wishes = {}, withPlans = true, ...matching } = options;
  const count = tracks.length;
  const exact = count <= EXACT_UP_TO;
  const levels = levelsOf(tracks);
  const costs: OrderCosts = {
    count,
    step: new Float64Array(count * count),
    place: new Float64Array(count * count),
    first: predecessors(count, wishes),
  };
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      if (i !== j) costs.step[i * count + j] = stepCost(tracks[i], tracks[j], options, exact && withPlans);
      if (wishes.shape === undefined) continue;
      const wanted = shapeAt(wishes.shape, count > 1 ? j / (count - 1) : 0);
      costs.place[i * count + j] = COSTS.shape * (levels[i].level - wanted) ** 2;
    }
  }
  const order = exact ? bestOrder(costs) : goodOrder(costs);
  const at = (p: number) => (count > 1 ? p / (count - 1) : 0);
  return {
    tracks: order.map((index, p) => ({
      index,
      ...levels[index],
      wanted: wishes.shape === undefined ? null : shapeAt(wishes.shape, at(p)),
    })),
    steps: order.slice(1).map((j, p): OrderedStep => {
      const [a, b] = [tracks[order[p]], tracks[j]];
      const step = bpmStep(a, b);
      return {
        bpmStep: step,
        withinStep: wishes.largestStep === undefined || Math.abs(step) <= wishes.largestStep + 1e-9,
        match: withPlans ? matchTracks(a, b, matching) : null,
      };
    }),
    method: exact ? 'exact' : 'good',
    cost: costOf(costs, order),
  };
}

/** Step in beats a minute at which the next record's beats come, half and double tempo folded. */
function bpmStep(a: TrackAnalysis, b: TrackAnalysis): number {
  const { ratio } = matchTempos(a.tempo.bpm, b.tempo.bpm, { change: 'b' });
  return b.tempo.bpm / ratio - a.tempo.bpm;
}

function stepCost(a: TrackAnalysis, b: TrackAnalysis, options: OrderOptions, planned: boolean): number {
  const { range = 0.08, keyLock = false, wishes } = options;
  const tempo = matchTempos(a.tempo.bpm, b.tempo.bpm, options);
  const shift = keyLock ? 0 : semitonesOf(tempo.rateB) - semitonesOf(tempo.rateA);
  const [from, to] = [a.key, b.key];
  const key =
    from.tonic === null || from.mode === null || to.tonic === null || to.mode === null
      ? COSTS.keyUnknown
      : COSTS.key *
        (1 - keyFit(meetKeys({ tonic: from.tonic, mode: from.mode }, { tonic: to.tonic, mode: to.mode }, shift)));
  const wished = wishes?.largestStep;
  const over = wished !== undefined && Math.abs(bpmStep(a, b)) > wished + 1e-9 ? COSTS.wish : 0;
  const apart = tempo.fits ? (COSTS.tempo * tempo.change) / range : COSTS.outOfRange + tempo.change;
  const metre = a.metre.beatsPerBar === b.metre.beatsPerBar ? 0 : COSTS.outOfRange;
  const plan = planned ? COSTS.plan * (1 - (matchTracks(a, b, { ...options, plans: 1 }).plans[0]?.score ?? 0)) : 0;
  return apart + metre + key + over + plan;
}

/** Loudness and density of each track, and where it stands among the others by both. */
function levelsOf(tracks: readonly TrackAnalysis[]) {
  const loud = tracks.map((t) => t.loudness.integratedLufs);
  const dense = tracks.map(densityOf);
  const [byLoudness, byDensity] = [ranks(loud.map((x) => x ?? median(loud))), ranks(dense)];
  const level = ranks(tracks.map((_, i) => byLoudness[i] + byDensity[i]));
  return tracks.map((_, i) => ({ integratedLufs: loud[i], density: dense[i], level: level[i] }));
}

/** Layers heard in a bar, on average over the track. */
function densityOf({ layers, bars }: TrackAnalysis): number {
  const sum = LAYERS.reduce((total, layer) => total + layers[layer].reduce((s: number, x) => s + (x ?? 0), 0), 0);
  return bars.length === 0 ? 0 : sum / bars.length;
}

/** Place of each value among all, 0 (least) to 1; equal values share a place. */
function ranks(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return values.map((value) => {
    const [low, high] = [sorted.indexOf(value), sorted.lastIndexOf(value)];
    return values.length > 1 ? (low + high) / 2 / (values.length - 1) : 0.5;
  });
}

function median(values: readonly (number | null)[]): number {
  const known = values.filter((x) => x !== null).sort((a, b) => a - b);
  return known[known.length >> 1] ?? 0;
}
