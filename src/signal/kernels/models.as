// AssemblyScript: fitted models and courses of two states, compiled into loops.wasm with the other loops. Pointers are byte
// offsets; sums are in the order of plain loops, so that they come out the same.

import { exp, log } from './logs';

/**
 * Log-odds of each of `rows` rows of cues by `count` trees of one depth: `cues` and `limits` hold 2^depth − 1 values a tree,
 * `leaves` 2^depth.
 */
export function treeOdds(values: usize, rows: i32, columns: i32, base: f64, depth: i32, count: i32, cues: usize, limits: usize, leaves: usize, out: usize): void {
  const perTree = 1 << depth;
  for (let r = 0; r < rows; r++) {
    let odds = base;
    let first = 0;
    let leaf = 0;
    for (let t = 0; t < count; t++) {
      let node = 1;
      for (let level = 0; level < depth; level++) {
        const at = first + node - 1;
        const value = <f64>load<f32>(values + (<usize>load<i32>(cues + (<usize>at << 2)) << 2));
        node = 2 * node + (value > load<f64>(limits + (<usize>at << 3)) ? 1 : 0);
      }
      odds += load<f64>(leaves + (<usize>(leaf + node - perTree) << 3));
      first += perTree - 1;
      leaf += perTree;
    }
    store<f64>(out + (<usize>r << 3), odds);
    values += <usize>columns << 2;
  }
}

/**
 * Log-odds of each of `rows` rows by a logistic regression of their first `count` cues, cut at ±limit, with `units` hidden units
 * beside it. `few`: room for `count` values.
 */
export function unitOdds(values: usize, rows: i32, columns: i32, count: i32, limit: f64, mean: usize, scale: usize, weights: usize, bias: f64, hidden: usize, thresholds: usize, counts: usize, units: i32, few: usize, out: usize): void {
  const width = <usize>count << 3;
  for (let r = 0; r < rows; r++) {
    let sum = bias;
    for (let at: usize = 0; at < width; at += 8) {
      const off = (<f64>load<f32>(values + (at >> 1)) - load<f64>(mean + at)) / load<f64>(scale + at);
      const z = max(-limit, min(limit, off));
      store<f64>(few + at, z);
      sum += load<f64>(weights + at) * z;
    }
    for (let h = 0; h < units; h++) {
      let s = load<f64>(thresholds + (<usize>h << 3));
      const row = hidden + <usize>h * width;
      for (let at: usize = 0; at < width; at += 8) s += load<f64>(row + at) * load<f64>(few + at);
      if (s > 0) sum += load<f64>(counts + (<usize>h << 3)) * s;
    }
    store<f64>(out + (<usize>r << 3), sum);
    values += <usize>columns << 2;
  }
}

/** log(exp a + exp b); the larger one is taken out, so that one exponential is 1. */
function logSum(a: f64, b: f64): f64 {
  return max(a, b) + log(1 + exp(-Math.abs(a - b)));
}

/**
 * Probability of the second of two states at each place, and the likeliest course: 1 where it is the second. `evidence` for it in
 * nats; `moves`: what it is worth to go from state p to state s at a place, at 4 · place + 2p + s; `begin`: what the two states are
 * worth at the beginning. `forward`, `backward`: room for two values a place.
 */
export function courseOf(evidence: usize, count: i32, moves: usize, begin: usize, forward: usize, backward: usize, presence: usize, on: usize): void {
  if (count === 0) return;
  const first = load<f64>(begin);
  const second = load<f64>(evidence) + load<f64>(begin, 8);
  const end = forward + (<usize>(count - 1) << 4);
  store<f64>(forward, first);
  store<f64>(forward, second, 8);
  let move = moves + 32;
  let e = evidence + 8;
  for (let at = forward; at < end; at += 16) {
    const isOut = load<f64>(at);
    const isIn = load<f64>(at, 8);
    store<f64>(at, logSum(isOut + load<f64>(move), isIn + load<f64>(move, 16)), 16);
    store<f64>(at, load<f64>(e) + logSum(isOut + load<f64>(move, 8), isIn + load<f64>(move, 24)), 24);
    move += 32;
    e += 8;
  }
  const last = backward + (<usize>(count - 1) << 4);
  store<f64>(last, 0);
  store<f64>(last, 0, 8);
  for (let at = last; at > backward; at -= 16) {
    move -= 32;
    e -= 8;
    const isOut = load<f64>(at);
    const isIn = load<f64>(at, 8);
    store<f64>(at - 16, logSum(isOut + load<f64>(move), isIn + load<f64>(e) + load<f64>(move, 8)));
    store<f64>(at - 16, logSum(isOut + load<f64>(move, 16), isIn + load<f64>(e) + load<f64>(move, 24)), 8);
  }
  for (let b = 0; b < count; b++) {
    const at = <usize>b << 4;
    const odds = load<f64>(forward + at, 8) + load<f64>(backward + at, 8) - load<f64>(forward + at) - load<f64>(backward + at);
    store<f64>(presence + (<usize>b << 3), 1 / (1 + exp(-odds)));
  }
  bestOf(evidence, count, moves, first, second, forward, on);
}

/** The likeliest course. `best`: room for two values a place. */
function bestOf(evidence: usize, count: i32, moves: usize, first: f64, second: f64, best: usize, on: usize): void {
  let isOut = first;
  let isIn = second;
  for (let b = 0; ; b++) {
    store<f64>(best + (<usize>b << 4), isOut);
    store<f64>(best + (<usize>b << 4), isIn, 8);
    if (b + 1 === count) break;
    const move = moves + (<usize>(b + 1) << 5);
    const out = max(isOut + load<f64>(move), isIn + load<f64>(move, 16));
    isIn = load<f64>(evidence + (<usize>(b + 1) << 3)) + max(isOut + load<f64>(move, 8), isIn + load<f64>(move, 24));
    isOut = out;
  }
  let state: usize = isIn > isOut ? 1 : 0;
  for (let b = count - 1; ; b--) {
    store<u8>(on + <usize>b, <u8>state);
    if (b === 0) return;
    const before = best + (<usize>(b - 1) << 4);
    const move = moves + (<usize>b << 5) + (state << 3);
    state = load<f64>(before, 8) + load<f64>(move, 16) > load<f64>(before) + load<f64>(move) ? 1 : 0;
  }
}
