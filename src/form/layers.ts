import { LAYERS, type Layer } from '../units/index.js';
import { oddsOfRows, type Logistic, type Network } from '../learned/index.js';
import { borrowKernels } from '../signal/index.js';
import type { LayerCues } from './layer-cues.js';
import { dropMistaken, type LayerWord } from './layer-evidence.js';

/** Log-odds of one bar are cut here, so that one bar alone (a fill, a gap) cannot switch a layer but two can. */
const BAR_LIMIT = 2.5;

/** Cost of a switch in nats: more than one bar's evidence either way, less than two bars'. */
const SWITCH_COST = 3.2;

/**
 * The same where it is known what starts: layers come and go with phrases. At a phrase start one bar and a half decide, off
 * them only a stretch that leaves no doubt. By 120 arranged tracks of the first set; anything from 5 and 1.5 to 8 and 0.5
 * does as well.
 */
const COST_AT_START = 1;
const COST_INSIDE = 6;

/** Cost in nats of what a person has said is not so. */
const FORBIDDEN = 1e5;

/** What judges a layer in a bar. */
export type LayerModel = Logistic | Network;

/** Probability of a presence, and where the layer is held to be in. */
export interface LayerTrack {
  readonly layer: Layer;
  /** Log-odds of each bar on its own. */
  readonly odds: Float64Array;
  /** Posterior presence under the switching cost. */
  readonly presence: Float64Array;
  /** The most likely course, 1 where the layer is in. */
  readonly on: Uint8Array;
}

/**
 * Judges each layer in each bar by a fitted score, then smooths by a two-state hidden Markov model.
 * @param words a person's word on each layer
 */
export function layerTracks(
  cues: LayerCues,
  models: Readonly<Record<Layer, LayerModel>>,
  words: Readonly<Partial<Record<Layer, LayerWord>>> = {},
): Record<Layer, LayerTrack> {
  return Object.fromEntries(
    LAYERS.map((layer) => [layer, layerTrack(layer, cues, models[layer], words[layer])]),
  ) as Record<Layer, LayerTrack>;
}

/** One of them. */
export function layerTrack(layer: Layer, cues: LayerCues, model: LayerModel, word?: LayerWord): LayerTrack {
  const odds = oddsOfRows(model, cues);
  return { layer, odds, ...smooth(odds, word) };
}

/**
 * The same layers, smoothed anew with what is known of the phrases.
 * @param phraseShare probability that a phrase starts at each bar; bars behind it hold none
 */
export function settleLayers(
  layers: Readonly<Record<Layer, LayerTrack>>,
  phraseShare: Float64Array,
  words: Readonly<Partial<Record<Layer, LayerWord>>> = {},
): Record<Layer, LayerTrack> {
  return Object.fromEntries(
    LAYERS.map((layer) => [layer, settleLayer(layers[layer], phraseShare, words[layer])]),
  ) as Record<Layer, LayerTrack>;
}

/** One of them. */
export function settleLayer({ layer, odds }: LayerTrack, phraseShare: Float64Array, word?: LayerWord): LayerTrack {
  return { layer, odds, ...smooth(odds, word, settledSwitching(phraseShare, odds.length)) };
}

/** What it is worth in each bar to stay and to switch, in nats. */
export interface Switching {
  readonly costs: Float64Array;
  readonly stays: Float64Array;
  /** Score of going from state p (0 out, 1 in) before bar b to state s in it: at 4b + 2p + s. */
  readonly moves: Float64Array;
}

/** Switches that cost the same in every bar. */
export function evenSwitching(bars: number): Switching {
  return switchingOf(new Float64Array(bars).fill(SWITCH_COST));
}

const known = new WeakMap<Float64Array, Switching>();

/** Switches that come with phrases: the same for every layer of a track. */
function settledSwitching(phraseShare: Float64Array, bars: number): Switching {
  let switching = known.get(phraseShare);
  if (switching?.costs.length === bars) return switching;
  const [at, inside] = [Math.exp(-COST_AT_START), Math.exp(-COST_INSIDE)];
  const costs = new Float64Array(bars);
  for (let b = 0; b < bars; b++) {
    const share = phraseShare[b] ?? 0;
    costs[b] = -Math.log(share * at + (1 - share) * inside);
  }
  known.set(phraseShare, (switching = switchingOf(costs)));
  return switching;
}

function switchingOf(costs: Float64Array): Switching {
  const stays = new Float64Array(costs.length);
  const moves = new Float64Array(4 * costs.length);
  for (let b = 0; b < costs.length; b++) {
    // What it is worth to stay where a switch costs so much.
    stays[b] = b > 0 && costs[b] === costs[b - 1] ? stays[b - 1] : Math.log1p(-Math.exp(-costs[b]));
    moves[4 * b] = moves[4 * b + 3] = stays[b];
    moves[4 * b + 1] = moves[4 * b + 2] = -costs[b];
  }
  return { costs, stays, moves };
}

/** Forward–backward and Viterbi over "out" and "in" with a cost for every switch, under a person's word. */
export function smooth(
  odds: ArrayLike<number>,
  word?: LayerWord,
  switching = evenSwitching(odds.length),
): { presence: Float64Array; on: Uint8Array } {
  const n = odds.length;
  const e = limited(odds);
  if (word) dropMistaken(e, word);
  const { costs, stays } = switching;
  const worth = word ? movesUnder(word, switching) : switching.moves;
  // Before the first bar every layer is out.
  const before = word && n > 0 ? [worth[0] - stays[0], worth[1] + costs[0]] : [0, 0];
  const kernels = borrowKernels(8 * (10 * n + 2) + n);
  const [evidence, moves, begin] = [kernels.doubles(e), kernels.doubles(worth), kernels.doubles(before)];
  const [forward, backward] = [kernels.doubles(2 * n), kernels.doubles(2 * n)];
  const [presence, course] = [kernels.doubles(n), kernels.bytes(n)];
  kernels.loops.courseOf(evidence.at, n, moves.at, begin.at, forward.at, backward.at, presence.at, course.at);
  return { presence: presence.view.slice(), on: course.view.slice() };
}

function limited(odds: ArrayLike<number>): Float64Array {
  const out = new Float64Array(odds.length);
  for (let b = 0; b < out.length; b++) out[b] = Math.max(-BAR_LIMIT, Math.min(BAR_LIMIT, odds[b]));
  return out;
}

/** Moves that a person's word forbids cost more than anything else can be worth. */
function movesUnder(word: LayerWord, { costs, moves }: Switching): Float64Array {
  const under = moves.slice();
  for (let b = 0; b < costs.length; b++) {
    const told = word.switches.get(b);
    for (let p = 0; p < 2; p++)
      for (let s = 0; s < 2; s++) {
        const free = told === undefined ? p === s || !word.none[s].has(b) : s === told && p !== s;
        if (!free) under[4 * b + 2 * p + s] -= FORBIDDEN;
      }
  }
  return under;
}
