// AssemblyScript: what the tempo stage does around its transforms, compiled into loops.wasm with the other loops. Pointers are byte
// offsets; complex numbers are real and imaginary parts in turn; sums are in the order of plain loops, so that they come out the same.

import { cos, hypot, sin } from './logs';

/** Two curves less a mean each, side by side as real and imaginary parts, and nothing up to `size`. */
export function paired(a: usize, b: usize, n: i32, meanOfA: f64, meanOfB: f64, size: i32, out: usize): void {
  for (let i: usize = 0; i < <usize>n; i++) {
    store<f64>(out + (i << 4), <f64>load<f32>(a + (i << 2)) - meanOfA);
    store<f64>(out + (i << 4), <f64>load<f32>(b + (i << 2)) - meanOfB, 8);
  }
  memory.fill(out + (<usize>n << 4), 0, <usize>(size - n) << 4);
}

/** Puts a window of a curve of mean 1, less that, into every other number of a row; nothing where the curve is not. */
function setWindow(curve: usize, rows: i32, from: i32, taper: usize, width: i32, out: usize): void {
  for (let i = 0; i < width; i++) {
    const r = from + i;
    const inside = r >= 0 && r < rows;
    const value = inside ? (<f64>load<f32>(curve + (<usize>r << 2)) - 1) * load<f64>(taper + (<usize>i << 3)) : 0;
    store<f64>(out + (<usize>i << 4), value);
  }
}

/** Salience of a spectrum's magnitudes on `count` bins: octaves are read between places and added up by their weights; mean 1. */
function setSalience(magnitudes: usize, places: usize, octaves: usize, many: i32, count: i32, out: usize): void {
  let sum: f64 = 0;
  for (let b = 0; b < count; b++) {
    let s: f64 = 0;
    for (let o = 0; o < many; o++) {
      const x = load<f64>(places + (<usize>(o * count + b) << 3));
      const i = floor(x);
      const at = magnitudes + (<usize>i << 3);
      s += load<f64>(octaves + (<usize>o << 3)) * (load<f64>(at) + (x - i) * (load<f64>(at, 8) - load<f64>(at)));
    }
    store<f32>(out + (<usize>b << 2), <f32>s);
    sum += s;
  }
  if (!(sum > 0)) return;
  const scale = <f64>count / sum;
  for (let at = out; at < out + (<usize>count << 2); at += 4) store<f32>(at, <f32>(<f64>load<f32>(at) * scale));
}

/** Two windows of a curve, the second `step` rows after the first, side by side as real and imaginary parts. */
export function windows(curve: usize, rows: i32, from: i32, step: i32, taper: usize, width: i32, out: usize): void {
  setWindow(curve, rows, from, taper, width, out);
  setWindow(curve, rows, from + step, taper, width, out + 8);
}

/**
 * Salience of two windows by the spectrum of both: that of the real parts is what bins at k and −k have in common, that of the imaginary parts
 * what they differ in. `places`: where in the spectrum the octaves of each bin lie. `magnitudes`: room.
 */
export function salience(spectrum: usize, size: i32, magnitudes: usize, highest: i32, places: usize, octaves: usize, many: i32, count: i32, out: usize): void {
  for (let part = 0; part < 2; part++) {
    const sign: f64 = part === 0 ? 1 : -1;
    for (let k = 0; k <= highest; k++) {
      const here = spectrum + (<usize>k << 4);
      const there = spectrum + (<usize>((size - k) % size) << 4);
      const re = load<f64>(here) + sign * load<f64>(there);
      const im = load<f64>(here, 8) - sign * load<f64>(there, 8);
      store<f64>(magnitudes + (<usize>k << 3), Math.sqrt(re * re + im * im) / 2);
    }
    setSalience(magnitudes, places, octaves, many, count, out + (<usize>(part * count) << 2));
  }
}

/**
 * Viterbi over `bins` in a circle: a move by d of them, up to `farthest`, costs move · d², a jump anywhere `jump`. `score`: 0 at the beginning, of each
 * bin at the end; `next`: room for as many; `back`: the bin before, for each row and bin.
 */
export function circling(values: usize, rows: i32, bins: i32, evidence: f64, move: f64, farthest: i32, jump: f64, score: usize, next: usize, back: usize): void {
  for (let r = 0; r < rows; r++) {
    let top = 0;
    for (let b = 1; b < bins; b++) if (load<f64>(score + (<usize>b << 3)) > load<f64>(score + (<usize>top << 3))) top = b;
    for (let b = 0; b < bins; b++) {
      let from = top;
      let best = load<f64>(score + (<usize>top << 3)) - jump;
      for (let d = -farthest; d <= farthest; d++) {
        const p = (b - d + bins) % bins;
        const s = load<f64>(score + (<usize>p << 3)) - move * <f64>d * <f64>d;
        if (s > best) {
          best = s;
          from = p;
        }
      }
      store<f64>(next + (<usize>b << 3), best + evidence * <f64>load<f32>(values));
      store<i16>(back, <i16>from);
      values += 4;
      back += 2;
    }
    memory.copy(score, next, <usize>bins << 3);
  }
}

/** Cosines and sines of n times an angle and of n times a turn, from n on, for each two neighbouring n. */
export function evenTurns(turns: usize, pairs: i32, n: i32, angle: f64, turn: f64): void {
  for (let k = 0; k < 2 * pairs; k++) {
    const at = turns + (<usize>(8 * (k >> 1) + (k & 1)) << 3);
    const many = <f64>(n + k);
    store<f64>(at, cos(many * angle));
    store<f64>(at, sin(many * angle), 16);
    store<f64>(at, cos(many * turn), 32);
    store<f64>(at, sin(many * turn), 48);
  }
}

/** Lengths of the first `count` of pairs of sums, those backwards `behind` values after those forwards. */
export function lengths(sums: usize, count: i32, behind: i32, out: usize): void {
  for (let k = 0; k < count; k++) {
    const at = sums + (<usize>(8 * (k >> 1) + (k & 1)) << 3);
    const to = out + (<usize>k << 3);
    store<f64>(to, hypot(load<f64>(at), load<f64>(at, 16)));
    store<f64>(to + (<usize>behind << 3), hypot(load<f64>(at, 32), load<f64>(at, 48)));
  }
}
