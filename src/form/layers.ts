import { LAYERS, type Layer } from '../units/index.js';
import { logOdds, networkOdds, sigmoid, type Logistic, type Network } from '../learned/index.js';
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
  const bars = cues.values.length / cues.columns;
  const odds = new Float64Array(bars);
  const oddsAt = (at: number) =>
    'hidden' in model ? networkOdds(model, cues.values, at) : logOdds(model, cues.values, at);
  for (let b = 0; b < bars; b++) odds[b] = oddsAt(b * cues.columns);
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
  const [at, inside] = [Math.exp(-COST_AT_START), Math.exp(-COST_INSIDE)];
  const costs = new Float64Array(odds.length);
  for (let b = 0; b < costs.length; b++) {
    const share = phraseShare[b] ?? 0;
    costs[b] = -Math.log(share * at + (1 - share) * inside);
  }
  return { layer, odds, ...smooth(odds, word, costs) };
}

/**
 * Forward–backward and Viterbi over "out" and "in" with a cost for every switch, under a person's word.
 * @param costs nats that a switch with each bar costs
 */
export function smooth(
  odds: ArrayLike<number>,
  word?: LayerWord,
  costs: Float64Array = new Float64Array(odds.length).fill(SWITCH_COST),
): { presence: Float64Array; on: Uint8Array } {
  const n = odds.length;
  const e = limited(odds);
  if (word) dropMistaken(e, word);
  const stays = staysOf(costs);
  const moves = movesOf(stays, costs, word);
  // Before the first bar every layer is out.
  const begin = word && n > 0 ? [moves[0] - stays[0], moves[1] + costs[0]] : [0, 0];
  const forward = goForward(e, moves, begin);
  const backward = goBackward(e, moves);
  return { presence: presenceOf(forward, backward), on: bestCourse(e, moves, begin) };
}

function limited(odds: ArrayLike<number>): Float64Array {
  const out = new Float64Array(odds.length);
  for (let b = 0; b < out.length; b++) out[b] = Math.max(-BAR_LIMIT, Math.min(BAR_LIMIT, odds[b]));
  return out;
}

/** What it is worth to stay where a switch costs so much. */
function staysOf(costs: Float64Array): Float64Array {
  const stays = new Float64Array(costs.length);
  for (let b = 0; b < stays.length; b++)
    stays[b] = b > 0 && costs[b] === costs[b - 1] ? stays[b - 1] : Math.log1p(-Math.exp(-costs[b]));
  return stays;
}

function presenceOf(forward: Float64Array, backward: Float64Array): Float64Array {
  const presence = new Float64Array(forward.length / 2);
  for (let b = 0; b < presence.length; b++)
    presence[b] = sigmoid(forward[2 * b + 1] + backward[2 * b + 1] - forward[2 * b] - backward[2 * b]);
  return presence;
}

/** Score of going from state p (0 out, 1 in) before bar b to state s in it, under a person's word: at 4b + 2p + s. */
function movesOf(stays: Float64Array, costs: Float64Array, word: LayerWord | undefined): Float64Array {
  const moves = new Float64Array(4 * stays.length);
  for (let b = 0; b < stays.length; b++) {
    moves[4 * b] = moves[4 * b + 3] = stays[b];
    moves[4 * b + 1] = moves[4 * b + 2] = -costs[b];
    if (!word) continue;
    const told = word.switches.get(b);
    for (let p = 0; p < 2; p++)
      for (let s = 0; s < 2; s++) {
        const free = told === undefined ? p === s || !word.none[s].has(b) : s === told && p !== s;
        if (!free) moves[4 * b + 2 * p + s] -= FORBIDDEN;
      }
  }
  return moves;
}

/** Score of each state of each bar by all ways there. */
function goForward(e: Float64Array, moves: Float64Array, begin: readonly number[]): Float64Array {
  const out = new Float64Array(2 * e.length);
  for (let s = 0; s < 2 && e.length > 0; s++) out[s] = (s === 1 ? e[0] : 0) + begin[s];
  for (let b = 1; b < e.length; b++) {
    const isOut = out[2 * b - 2];
    const isIn = out[2 * b - 1];
    out[2 * b] = logSum(isOut + moves[4 * b], isIn + moves[4 * b + 2]);
    out[2 * b + 1] = e[b] + logSum(isOut + moves[4 * b + 1], isIn + moves[4 * b + 3]);
  }
  return out;
}

/** The most likely course: 1 in the bars in which the layer is in. */
function bestCourse(e: Float64Array, moves: Float64Array, begin: readonly number[]): Uint8Array {
  const n = e.length;
  const best = new Float64Array(2 * n);
  const on = new Uint8Array(n);
  for (let s = 0; s < 2 && n > 0; s++) best[s] = (s === 1 ? e[0] : 0) + begin[s];
  for (let b = 1; b < n; b++) {
    const isOut = best[2 * b - 2];
    const isIn = best[2 * b - 1];
    best[2 * b] = Math.max(isOut + moves[4 * b], isIn + moves[4 * b + 2]);
    best[2 * b + 1] = e[b] + Math.max(isOut + moves[4 * b + 1], isIn + moves[4 * b + 3]);
  }
  if (n > 0) on[n - 1] = best[2 * n - 1] > best[2 * n - 2] ? 1 : 0;
  for (let b = n - 1; b > 0; b--) {
    const into = 4 * b + on[b];
    on[b - 1] = best[2 * b - 1] + moves[into + 2] > best[2 * b - 2] + moves[into] ? 1 : 0;
  }
  return on;
}

function goBackward(e: Float64Array, moves: Float64Array): Float64Array {
  const out = new Float64Array(2 * e.length);
  for (let b = e.length - 2; b >= 0; b--) {
    const next = 2 * (b + 1);
    for (let s = 0; s < 2; s++) {
      const move = 4 * (b + 1) + 2 * s;
      out[2 * b + s] = logSum(out[next] + moves[move], out[next + 1] + e[b + 1] + moves[move + 1]);
    }
  }
  return out;
}

/** log(exp a + exp b); the larger one is taken out, so that one exponential is 1. */
function logSum(a: number, b: number): number {
  return Math.max(a, b) + Math.log(1 + Math.exp(-Math.abs(a - b)));
}
