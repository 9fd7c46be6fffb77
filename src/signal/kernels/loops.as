// AssemblyScript: compiled to loops.wasm by src/setup/kernels.mjs. Pointers are byte offsets into the module's memory, and
// every array starts at a multiple of 16 bytes. Recursive filters wait for their last output; here two of them wait
// together in the two lanes of a vector.

/** Middle and side of `n` frames; gives the energy of the middle, which is no number when a sample is none. */
export function split(left: usize, right: usize, mid: usize, side: usize, n: i32): f64 {
  const half = f32x4.splat(0.5);
  let sum = f64x2.splat(0);
  let i = 0;
  for (; i + 4 <= n; i += 4) {
    const at = <usize>i << 2;
    const l = v128.load(left + at);
    const r = v128.load(right + at);
    const m = f32x4.mul(f32x4.add(l, r), half);
    v128.store(mid + at, m);
    v128.store(side + at, f32x4.mul(f32x4.sub(l, r), half));
    const low = f64x2.promote_low_f32x4(m);
    const high = f64x2.promote_low_f32x4(i64x2.shuffle(m, m, 1, 0));
    sum = f64x2.add(sum, f64x2.add(f64x2.mul(low, low), f64x2.mul(high, high)));
  }
  let energy = f64x2.extract_lane(sum, 0) + f64x2.extract_lane(sum, 1);
  for (; i < n; i++) {
    const at = <usize>i << 2;
    const l = load<f32>(left + at);
    const r = load<f32>(right + at);
    const m = (l + r) * 0.5;
    store<f32>(mid + at, m);
    store<f32>(side + at, (l - r) * 0.5);
    energy += <f64>m * <f64>m;
  }
  return energy;
}

/** Sum of squares. */
function energy(samples: usize, n: i32): f64 {
  let even = f64x2.splat(0);
  let odd = f64x2.splat(0);
  let i = 0;
  for (; i + 4 <= n; i += 4) {
    const x = v128.load(samples + (<usize>i << 2));
    const low = f64x2.promote_low_f32x4(x);
    const high = f64x2.promote_low_f32x4(i64x2.shuffle(x, x, 1, 0));
    even = f64x2.add(even, f64x2.mul(low, low));
    odd = f64x2.add(odd, f64x2.mul(high, high));
  }
  const both = f64x2.add(even, odd);
  let sum = f64x2.extract_lane(both, 0) + f64x2.extract_lane(both, 1);
  for (; i < n; i++) {
    const x = <f64>load<f32>(samples + (<usize>i << 2));
    sum += x * x;
  }
  return sum;
}

/**
 * Power of middle and side in rows of `perRow` samples: gives how many rows were finished and writes their powers to `out`, two a
 * row. `state`: energies of both so far, and samples that the row still wants.
 */
export function stereoRows(mid: usize, side: usize, n: i32, perRow: f64, state: usize, out: usize): i32 {
  let m = load<f64>(state);
  let s = load<f64>(state, 8);
  let left = load<f64>(state, 16);
  let rows = 0;
  for (let from = 0; from < n; ) {
    const count = min(n - from, <i32>ceil(left));
    const at = <usize>from << 2;
    m += energy(mid + at, count);
    s += energy(side + at, count);
    left -= count;
    from += count;
    if (left > 0) continue;
    store<f32>(out, <f32>(m / perRow));
    store<f32>(out, <f32>(s / perRow), 4);
    m = 0;
    s = 0;
    out += 8;
    rows++;
    left += perRow;
  }
  store<f64>(state, m);
  store<f64>(state, s, 8);
  store<f64>(state, left, 16);
  return rows;
}

/**
 * A low-pass and a high-pass side by side, and the first difference: adds their energies. `filters`: b0, b1, b2, a1, a2,
 * each for both; `state`: outputs before and before that, energies, each for both, then the difference's energy and the two
 * samples before. Written so that an output waits for the one before with one product and one difference only.
 */
function fine(samples: usize, n: i32, filters: usize, state: usize): void {
  const b0 = v128.load(filters);
  const b1 = v128.load(filters, 16);
  const b2 = v128.load(filters, 32);
  const a1 = v128.load(filters, 48);
  const a2 = v128.load(filters, 64);
  let y1 = v128.load(state);
  let y2 = v128.load(state, 16);
  let sums = v128.load(state, 32);
  let difference = load<f64>(state, 48);
  let x1 = v128.load64_splat(state, 56);
  let x2 = v128.load64_splat(state, 64);
  for (let i = 0; i < n; i++) {
    const sample = <f64>load<f32>(samples + (<usize>i << 2));
    const d = sample - f64x2.extract_lane(x1, 0);
    difference += d * d;
    const x = f64x2.splat(sample);
    const come = f64x2.add(f64x2.add(f64x2.mul(b0, x), f64x2.mul(b1, x1)), f64x2.mul(b2, x2));
    const y = f64x2.sub(f64x2.sub(come, f64x2.mul(a2, y2)), f64x2.mul(a1, y1));
    sums = f64x2.add(sums, f64x2.mul(y, y));
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
  }
  v128.store(state, y1);
  v128.store(state, y2, 16);
  v128.store(state, sums, 32);
  store<f64>(state, difference, 48);
  store<f64>(state, f64x2.extract_lane(x1, 0), 56);
  store<f64>(state, f64x2.extract_lane(x2, 0), 64);
}

/** A filter's state, or zero where it has all but died away: subnormal numbers cost a hundred times as much. */
function settle(state: usize): void {
  if (abs(load<f64>(state)) < 1e-25) store<f64>(state, 0);
}

/**
 * The same in rows of `perRow` samples, which need not be whole: gives how many rows were finished and writes their energies to
 * `out`, three a row: difference, below, above. `clock`: samples so far and where the row ends.
 */
export function fineRows(samples: usize, n: i32, perRow: f64, filters: usize, state: usize, clock: usize, out: usize): i32 {
  let count = load<f64>(clock);
  let edge = load<f64>(clock, 8);
  let rows = 0;
  for (let from = 0; from < n; ) {
    const to = min(n, from + <i32>ceil(edge - count));
    fine(samples + (<usize>from << 2), to - from, filters, state);
    for (let i: usize = 0; i < 4; i++) settle(state + (i << 3));
    count += to - from;
    from = to;
    if (count < edge) continue;
    store<f32>(out, <f32>load<f64>(state, 48));
    store<f32>(out, <f32>load<f64>(state, 32), 4);
    store<f32>(out, <f32>load<f64>(state, 40), 8);
    v128.store(state, f64x2.splat(0), 32);
    store<f64>(state, 0, 48);
    out += 12;
    rows++;
    edge += perRow;
  }
  store<f64>(clock, count);
  store<f64>(clock, edge, 8);
  return rows;
}

/** State of a filter of four numbers after one sample: `step` holds where each of the four goes, then the sample. */
function stepped(sample: f64, step: usize, state: usize): void {
  const x = f64x2.splat(sample);
  let low = f64x2.mul(x, v128.load(step, 128));
  let high = f64x2.mul(x, v128.load(step, 144));
  for (let i: usize = 0; i < 4; i++) {
    const s = v128.load64_splat(state + (i << 3));
    low = f64x2.add(low, f64x2.mul(s, v128.load(step + (i << 5))));
    high = f64x2.add(high, f64x2.mul(s, v128.load(step + (i << 5), 16)));
  }
  v128.store(state, low);
  v128.store(state, high, 16);
}

/**
 * Every fourth sample from `skip` on after one section twice; gives how many were kept. Between two that are kept the state
 * goes on by four samples at once: `four` holds where each of its four numbers goes, then each of the four samples; `one` the
 * same for a single sample. `gain`: b0 of the section.
 */
export function quarter(samples: usize, n: i32, skip: i32, gain: f64, one: usize, four: usize, state: usize, kept: usize): i32 {
  const first = min(n, skip);
  for (let i = 0; i < first; i++) stepped(<f64>load<f32>(samples + (<usize>i << 2)), one, state);
  const p0 = v128.load(four);
  const p1 = v128.load(four, 32);
  const p0h = v128.load(four, 16);
  const p1h = v128.load(four, 48);
  // The second section does not work back on the first.
  const p2h = v128.load(four, 80);
  const p3h = v128.load(four, 112);
  const q0 = v128.load(four, 128);
  const q0h = v128.load(four, 144);
  const q1 = v128.load(four, 160);
  const q1h = v128.load(four, 176);
  const q2 = v128.load(four, 192);
  const q2h = v128.load(four, 208);
  const q3 = v128.load(four, 224);
  const q3h = v128.load(four, 240);
  let low = v128.load(state);
  let high = v128.load(state, 16);
  let i = first;
  let count: usize = 0;
  for (; i + 4 <= n; i += 4) {
    const x = v128.load(samples + (<usize>i << 2));
    const begin = f64x2.promote_low_f32x4(x);
    const end = f64x2.promote_low_f32x4(i64x2.shuffle(x, x, 1, 0));
    const x0 = i64x2.shuffle(begin, begin, 0, 0);
    const x1 = i64x2.shuffle(begin, begin, 1, 1);
    const x2 = i64x2.shuffle(end, end, 0, 0);
    const x3 = i64x2.shuffle(end, end, 1, 1);
    const out = gain * (gain * f64x2.extract_lane(begin, 0) + f64x2.extract_lane(low, 0)) + f64x2.extract_lane(high, 0);
    store<f32>(kept + (count << 2), <f32>out);
    count++;
    const s0 = i64x2.shuffle(low, low, 0, 0);
    const s1 = i64x2.shuffle(low, low, 1, 1);
    const s2 = i64x2.shuffle(high, high, 0, 0);
    const s3 = i64x2.shuffle(high, high, 1, 1);
    const come = f64x2.add(
      f64x2.add(f64x2.mul(q0, x0), f64x2.mul(q1, x1)),
      f64x2.add(f64x2.mul(q2, x2), f64x2.mul(q3, x3)),
    );
    const comeHigh = f64x2.add(
      f64x2.add(f64x2.mul(q0h, x0), f64x2.mul(q1h, x1)),
      f64x2.add(f64x2.mul(q2h, x2), f64x2.mul(q3h, x3)),
    );
    low = f64x2.add(f64x2.add(f64x2.mul(p0, s0), f64x2.mul(p1, s1)), come);
    high = f64x2.add(
      f64x2.add(f64x2.mul(p0h, s0), f64x2.mul(p1h, s1)),
      f64x2.add(f64x2.add(f64x2.mul(p2h, s2), f64x2.mul(p3h, s3)), comeHigh),
    );
  }
  v128.store(state, low);
  v128.store(state, high, 16);
  if (i < n) {
    const x = <f64>load<f32>(samples + (<usize>i << 2));
    store<f32>(kept + (count << 2), <f32>(gain * (gain * x + load<f64>(state)) + load<f64>(state, 16)));
    count++;
  }
  for (; i < n; i++) stepped(<f64>load<f32>(samples + (<usize>i << 2)), one, state);
  return <i32>count;
}

/**
 * Two sections after each other on two channels side by side: the sum of squares. Samples that are no numbers count as zero; they spoil the sum,
 * and only then is it worth looking at each.
 */
export function weighted(left: usize, right: usize, n: i32, filters: usize, state: usize): f64 {
  const x1 = v128.load(state);
  const x2 = v128.load(state, 16);
  const y1 = v128.load(state, 32);
  const y2 = v128.load(state, 48);
  const sum = sections(left, right, n, filters, state);
  if (sum - sum === 0) return sum;
  v128.store(state, x1);
  v128.store(state, x2, 16);
  v128.store(state, y1, 32);
  v128.store(state, y2, 48);
  silence(left, n);
  silence(right, n);
  return sections(left, right, n, filters, state);
}

/** Puts zero in place of samples that are no numbers. */
function silence(samples: usize, n: i32): void {
  for (const end = samples + (<usize>n << 2); samples < end; samples += 4) {
    const x = load<f32>(samples);
    if (x - x !== 0) store<f32>(samples, 0);
  }
}

function sections(left: usize, right: usize, n: i32, filters: usize, state: usize): f64 {
  const p0 = v128.load(filters);
  const p1 = v128.load(filters, 16);
  const p2 = v128.load(filters, 32);
  const q1 = v128.load(filters, 48);
  const q2 = v128.load(filters, 64);
  const r0 = v128.load(filters, 80);
  const r1 = v128.load(filters, 96);
  const r2 = v128.load(filters, 112);
  const s1 = v128.load(filters, 128);
  const s2 = v128.load(filters, 144);
  let x1 = v128.load(state);
  let x2 = v128.load(state, 16);
  let y1 = v128.load(state, 32);
  let y2 = v128.load(state, 48);
  let sum = f64x2.splat(0);
  for (let i = 0; i < n; i++) {
    const at = <usize>i << 2;
    const x = f64x2.replace_lane(f64x2.splat(<f64>load<f32>(left + at)), 1, <f64>load<f32>(right + at));
    const m = f64x2.add(f64x2.mul(p0, x), x1);
    x1 = f64x2.sub(f64x2.add(f64x2.mul(p1, x), x2), f64x2.mul(q1, m));
    x2 = f64x2.sub(f64x2.mul(p2, x), f64x2.mul(q2, m));
    const y = f64x2.add(f64x2.mul(r0, m), y1);
    y1 = f64x2.sub(f64x2.add(f64x2.mul(r1, m), y2), f64x2.mul(s1, y));
    y2 = f64x2.sub(f64x2.mul(r2, m), f64x2.mul(s2, y));
    sum = f64x2.add(sum, f64x2.mul(y, y));
  }
  v128.store(state, x1);
  v128.store(state, x2, 16);
  v128.store(state, y1, 32);
  v128.store(state, y2, 48);
  return f64x2.extract_lane(sum, 0) + f64x2.extract_lane(sum, 1);
}

/**
 * The highest absolute value of `n` samples and between each and the next, if above `highest`: `phases` filters of twice
 * `reach` taps give the values between, where a crest could rise above it. `reach` − 1 samples stand before the first,
 * `reach` behind the last. Values that are no numbers are passed over.
 */
export function peak(
  samples: usize,
  n: i32,
  taps: usize,
  phases: i32,
  reach: i32,
  worth: f64,
  above: f64,
  highest: f64,
): f64 {
  let limit = highest * worth;
  let floor = worthALook(limit, highest, above);
  let high = f32x4.splat(<f32>(highest * HAIR));
  for (let i = 0; i < n; i += 4) {
    const at = samples + (<usize>i << 2);
    const x = v128.load(at);
    const y = v128.load(at, 4);
    const here = f32x4.abs(x);
    const next = f32x4.abs(y);
    const loud = f32x4.ge(f32x4.max(here, next), floor);
    if (!v128.any_true(loud)) continue;
    // Four samples are looked at together; what might be higher is looked at again alone.
    const crest = v128.and(f32x4.ge(here, f32x4.abs(v128.load(at - 4))), f32x4.ge(next, f32x4.abs(v128.load(at, 8))));
    const oneSign = i32x4.ge_s(v128.xor(x, y), i32x4.splat(0));
    const might = v128.and(loud, v128.or(f32x4.ge(here, high), v128.and(crest, oneSign)));
    for (let lanes = i32x4.bitmask(might); lanes !== 0; lanes &= lanes - 1) {
      const k = i + ctz(lanes);
      if (k >= n) break;
      const found = peakBeside(samples + (<usize>k << 2), taps, phases, reach, above, limit, highest);
      if (found > highest) {
        highest = found;
        limit = highest * worth;
        floor = worthALook(limit, highest, above);
        high = f32x4.splat(<f32>(highest * HAIR));
      }
    }
  }
  return highest;
}

/** A hair lower, so that rounding passes nothing over. */
const HAIR: f64 = 0.999999;

/** Below this nothing beside a sample can be the highest: the cubic rises by a quarter above the higher of two samples at a crest. */
function worthALook(limit: f64, highest: f64, above: f64): v128 {
  return f32x4.splat(<f32>(max(limit, highest / (above * 1.25)) * HAIR));
}

/** The same of one sample and what follows it. */
function peakBeside(at: usize, taps: usize, phases: i32, reach: i32, above: f64, limit: f64, highest: f64): f64 {
  const x = <f64>load<f32>(at);
  const y = <f64>load<f32>(at, 4);
  const here = abs(x);
  const next = abs(y);
  if (!(here >= limit || next >= limit)) return highest;
  if (here > highest && here < Infinity) highest = here;
  // Between two samples of one sign that fall away outwards lies a crest; elsewhere the samples lead on to one.
  const before = <f64>load<f32>(at - 4);
  const after = <f64>load<f32>(at, 8);
  if (!(here >= abs(before) && next >= abs(after) && x * y > 0)) return highest;
  const middle = abs(9 * (x + y) - before - after) / 16;
  if (!(max(max(middle, here), next) * above > highest)) return highest;
  const width = 2 * reach;
  const from = at - (<usize>(reach - 1) << 2);
  for (let p = 0; p < phases; p++) {
    let even = f64x2.splat(0);
    let odd = f64x2.splat(0);
    for (let k = 0; k < width; k += 4) {
      const tap = taps + (<usize>(p * width + k) << 3);
      const four = v128.load(from + (<usize>k << 2));
      even = f64x2.add(even, f64x2.mul(v128.load(tap), f64x2.promote_low_f32x4(four)));
      const last = f64x2.promote_low_f32x4(i64x2.shuffle(four, four, 1, 0));
      odd = f64x2.add(odd, f64x2.mul(v128.load(tap, 16), last));
    }
    const sums = f64x2.add(even, odd);
    const value = abs(f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1));
    if (value > highest && value < Infinity) highest = value;
  }
  return highest;
}

/** A frame under a window; `n` is a multiple of 4, the frame may start anywhere. */
export function windowed(frame: usize, window: usize, out: usize, n: i32): void {
  for (let at: usize = 0; at < <usize>n << 2; at += 16)
    v128.store(out + at, f32x4.mul(v128.load(frame + at), v128.load(window + at)));
}

/** Sums of power between bins: `edges` holds `count` + 1 bins as i32, the spectrum real and imaginary parts in turn. */
export function bands(spectrum: usize, edges: usize, count: i32, out: usize): void {
  for (let b = 0; b < count; b++) {
    const from = <usize>load<i32>(edges + (<usize>b << 2));
    const to = <usize>load<i32>(edges + (<usize>b << 2), 4);
    let sums = f64x2.splat(0);
    for (let k = from; k < to; k++) {
      const bin = f64x2.promote_low_f32x4(v128.load64_zero(spectrum + (k << 3)));
      sums = f64x2.add(sums, f64x2.mul(bin, bin));
    }
    store<f32>(out + (<usize>b << 2), <f32>(f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1)));
  }
}

/**
 * Adds the power of bins to classes: of each of `count` bins, its place in the spectrum as i32 in `bins`, the place of its
 * class in `out` in `classes`, and its weight.
 */
export function classes(spectrum: usize, count: i32, bins: usize, places: usize, weights: usize, out: usize): void {
  for (let i = 0; i < count; i++) {
    const at = <usize>i << 2;
    const bin = spectrum + (<usize>load<i32>(bins + at) << 3);
    const re = <f64>load<f32>(bin);
    const im = <f64>load<f32>(bin, 4);
    const to = out + (<usize>load<i32>(places + at) << 2);
    store<f32>(to, <f32>(<f64>load<f32>(to) + load<f64>(weights + (<usize>i << 3)) * (re * re + im * im)));
  }
}

/**
 * Two turning phasors against blocks of `rows` of `n` samples, side by side. `turns`: cosine and sine of a step, each for
 * both; `states`, for each block: cosines, sines, real sums, imaginary sums, each for both. A state is carried on, its sums
 * grow.
 */
export function turned(samples: usize, n: i32, rows: i32, turns: usize, states: usize): void {
  const cosTurn = v128.load(turns);
  const sinTurn = v128.load(turns, 16);
  for (let from = 0; from < n; from += rows) {
    let c = v128.load(states);
    let s = v128.load(states, 16);
    let re = v128.load(states, 32);
    let im = v128.load(states, 48);
    const to = min(n, from + rows);
    for (let i = from; i < to; i++) {
      const x = f64x2.splat(<f64>load<f32>(samples + (<usize>i << 2)));
      re = f64x2.add(re, f64x2.mul(x, c));
      im = f64x2.add(im, f64x2.mul(x, s));
      const next = f64x2.sub(f64x2.mul(c, cosTurn), f64x2.mul(s, sinTurn));
      s = f64x2.add(f64x2.mul(s, cosTurn), f64x2.mul(c, sinTurn));
      c = next;
    }
    v128.store(states, c);
    v128.store(states, s, 16);
    v128.store(states, re, 32);
    v128.store(states, im, 48);
    states += 64;
  }
}

/**
 * Coefficients of `n` blocks added up under two turns, forwards and backwards. `turns`: cosines and sines at the first
 * block, then of a step, each for both; `sums`: real and imaginary forwards, then backwards, each for both.
 */
function beside(re: usize, im: usize, n: i32, turns: usize, sums: usize): void {
  let c = v128.load(turns);
  let s = v128.load(turns, 16);
  const cosTurn = v128.load(turns, 32);
  const sinTurn = v128.load(turns, 48);
  let aboveRe = f64x2.splat(0);
  let aboveIm = f64x2.splat(0);
  let belowRe = f64x2.splat(0);
  let belowIm = f64x2.splat(0);
  for (let i = 0; i < n; i++) {
    const at = <usize>i << 3;
    const r = v128.load64_splat(re + at);
    const m = v128.load64_splat(im + at);
    const rc = f64x2.mul(r, c);
    const is = f64x2.mul(m, s);
    const rs = f64x2.mul(r, s);
    const ic = f64x2.mul(m, c);
    aboveRe = f64x2.add(aboveRe, f64x2.sub(rc, is));
    aboveIm = f64x2.add(aboveIm, f64x2.add(rs, ic));
    belowRe = f64x2.add(belowRe, f64x2.add(rc, is));
    belowIm = f64x2.add(belowIm, f64x2.sub(ic, rs));
    const next = f64x2.sub(f64x2.mul(c, cosTurn), f64x2.mul(s, sinTurn));
    s = f64x2.add(f64x2.mul(s, cosTurn), f64x2.mul(c, sinTurn));
    c = next;
  }
  v128.store(sums, aboveRe);
  v128.store(sums, aboveIm, 16);
  v128.store(sums, belowRe, 32);
  v128.store(sums, belowIm, 48);
}

/** The same under `count` pairs of turns one after the other. */
export function besides(re: usize, im: usize, n: i32, turns: usize, count: i32, sums: usize): void {
  for (let i: usize = 0; i < <usize>count; i++) beside(re, im, n, turns + (i << 6), sums + (i << 6));
}

/**
 * How much the columns `first` to `last` (not included) of each row rise over the row `lag` rows earlier and its neighbouring
 * columns, whichever is highest: SuperFlux. Row r of `rows` rows is compared with the row at r, so `logs` holds rows + lag rows.
 */
export function rises(logs: usize, columns: i32, rows: i32, lag: i32, first: i32, last: i32, out: usize): void {
  const back = <usize>(lag * columns) << 2;
  for (let r = 0; r < rows; r++) {
    const before = logs + (<usize>(r * columns) << 2);
    const now = before + back;
    let sum = f64x2.splat(0);
    let c = first + 1;
    // Four columns at once where there are neighbours on both sides.
    for (; c + 4 < last; c += 4) {
      const at = <usize>c << 2;
      const sides = f32x4.max(v128.load(before + at - 4), v128.load(before + at, 4));
      const earlier = f32x4.max(v128.load(before + at), sides);
      const later = v128.load(now + at);
      const low = f64x2.sub(f64x2.promote_low_f32x4(later), f64x2.promote_low_f32x4(earlier));
      const laterEnd = f64x2.promote_low_f32x4(i64x2.shuffle(later, later, 1, 0));
      const high = f64x2.sub(laterEnd, f64x2.promote_low_f32x4(i64x2.shuffle(earlier, earlier, 1, 0)));
      sum = f64x2.add(sum, f64x2.add(f64x2.max(low, f64x2.splat(0)), f64x2.max(high, f64x2.splat(0))));
    }
    let total = f64x2.extract_lane(sum, 0) + f64x2.extract_lane(sum, 1) + riseOf(before, now, first, first, last);
    for (; c < last; c++) total += riseOf(before, now, c, first, last);
    store<f32>(out + (<usize>r << 2), <f32>total);
  }
}

/** The same of one column, which may have a neighbour on one side only. */
function riseOf(before: usize, now: usize, c: i32, first: i32, last: i32): f64 {
  const at = <usize>c << 2;
  let earlier = load<f32>(before + at);
  if (c > first) earlier = max(earlier, load<f32>(before + at - 4));
  if (c + 1 < last) earlier = max(earlier, load<f32>(before + at, 4));
  return max(<f64>load<f32>(now + at) - <f64>earlier, 0);
}

/**
 * Likeness of `n` beats, each of `steps` values, to a template of as many, read from each of the steps on: adds `weight`
 * times the sum of products to `out`. `values` holds one beat more; `steps` is even.
 */
export function likeness(values: usize, n: i32, steps: i32, template: usize, weight: f64, out: usize): void {
  const factor = f64x2.splat(weight);
  for (let b = 0; b < n; b++) {
    const beat = values + (<usize>(b * steps) << 2);
    const to = out + (<usize>(b * steps) << 3);
    for (let p = 0; p < steps; p += 2) {
      let sum = f64x2.splat(0);
      let at = beat + (<usize>p << 2);
      for (let j = 0; j < steps; j++) {
        const x = f64x2.promote_low_f32x4(v128.load64_zero(at));
        sum = f64x2.add(sum, f64x2.mul(x, v128.load64_splat(template + (<usize>j << 3))));
        at += 4;
      }
      const place = to + (<usize>p << 3);
      v128.store(place, f64x2.add(v128.load(place), f64x2.mul(factor, sum)));
    }
  }
}

/**
 * One step of Viterbi over phrases: from bar `b`, whose states lie at b·width, a phrase of each length up to `reach` to the bar it
 * leads to, within the section or closing it. `phrases`: score of each length; `stay`, `close`: of what starts at each bar;
 * `advance`: the state after as many more bars; `section`, `edge`: of a section of each state's length inside the track and at
 * its ends. Gives the best score of a state of bar b; nothing is done where there is none.
 */
export function phrasesFrom(b: i32, bars: i32, width: i32, reach: i32, phrases: usize, stay: usize, close: usize, advance: usize, section: usize, edge: usize, best: usize, back: usize): f64 {
  const row = best + (<usize>(b * width) << 3);
  let top: f64 = -Infinity;
  for (let o = 0; o < width; o++) top = max(top, load<f64>(row + (<usize>o << 3)));
  if (top === -Infinity) return top;
  for (let l = 1; l <= reach; l++) {
    const to = b + l;
    const phrase = load<f64>(phrases + (<usize>l << 3));
    const staying = load<f64>(stay + (<usize>to << 3));
    const closing = load<f64>(close + (<usize>to << 3));
    const after = advance + (<usize>min(l, width - 1) << 2);
    const there = best + (<usize>(to * width) << 3);
    const path = back + (<usize>(to * width) << 2);
    for (let o = 0; o < width; o++) {
      const from = load<f64>(row + (<usize>o << 3)) + phrase;
      if (from === -Infinity) continue;
      const o2 = load<i32>(after + (<usize>o << 2));
      const state = <usize>o2 << 3;
      const on = from + staying;
      if (on > load<f64>(there + state)) {
        store<f64>(there + state, on);
        store<i32>(path + (<usize>o2 << 2), b * width + o);
      }
      const closed = from + closing + load<f64>((to === bars || o2 === to ? edge : section) + state);
      if (closed > load<f64>(there)) {
        store<f64>(there, closed);
        store<i32>(path, b * width + o);
      }
    }
  }
  return top;
}

/** The same step forwards in sums of weights: `stay` and `close` for each length, `section` and `edge` as weights. */
export function forwardFrom(b: i32, bars: i32, width: i32, reach: i32, stay: usize, close: usize, advance: usize, section: usize, edge: usize, sums: usize): void {
  const row = sums + (<usize>(b * width) << 3);
  for (let l = 1; l <= reach; l++) {
    const to = b + l;
    const on = load<f64>(stay + (<usize>l << 3));
    const after = advance + (<usize>min(l, width - 1) << 2);
    const there = sums + (<usize>(to * width) << 3);
    let closed: f64 = 0;
    for (let o = 0; o < width; o++) {
      const weight = load<f64>(row + (<usize>o << 3));
      if (weight === 0) continue;
      const o2 = load<i32>(after + (<usize>o << 2));
      const state = <usize>o2 << 3;
      store<f64>(there + state, load<f64>(there + state) + weight * on);
      closed += weight * load<f64>((to === bars || o2 === to ? edge : section) + state);
    }
    store<f64>(there, load<f64>(there) + closed * load<f64>(close + (<usize>l << 3)));
  }
}

/** And backwards, for the states of bar `b` that a way leads to. */
export function backwardFrom(b: i32, bars: i32, width: i32, reach: i32, stay: usize, close: usize, advance: usize, section: usize, edge: usize, ways: usize, sums: usize): void {
  const row = sums + (<usize>(b * width) << 3);
  const reached = ways + (<usize>(b * width) << 3);
  for (let l = 1; l <= reach; l++) {
    const to = b + l;
    const on = load<f64>(stay + (<usize>l << 3));
    const after = advance + (<usize>min(l, width - 1) << 2);
    const there = sums + (<usize>(to * width) << 3);
    const shut = load<f64>(close + (<usize>l << 3)) * load<f64>(there);
    for (let o = 0; o < width; o++) {
      const at = <usize>o << 3;
      if (load<f64>(reached + at) === 0) continue;
      const o2 = load<i32>(after + (<usize>o << 2));
      const state = <usize>o2 << 3;
      const end = load<f64>((to === bars || o2 === to ? edge : section) + state);
      store<f64>(row + at, load<f64>(row + at) + (on * load<f64>(there + state) + shut * end));
    }
  }
}

/** Energies of two channels and the sum of their products, added to the three `sums` sample by sample. */
export function energies(left: usize, right: usize, n: i32, sums: usize): void {
  let l = load<f64>(sums);
  let r = load<f64>(sums, 8);
  let both = load<f64>(sums, 16);
  for (let at: usize = 0; at < <usize>n << 2; at += 4) {
    const a = <f64>load<f32>(left + at);
    const b = <f64>load<f32>(right + at);
    l += a * a;
    r += b * b;
    both += a * b;
  }
  store<f64>(sums, l);
  store<f64>(sums, r, 8);
  store<f64>(sums, both, 16);
}

/** Sum of squares; what is no finite number counts as nothing. */
export function squares(samples: usize, n: i32): f64 {
  let sum: f64 = 0;
  for (let at = samples; at < samples + (<usize>n << 2); at += 4) {
    const x = <f64>load<f32>(at);
    if (x - x === 0) sum += x * x;
  }
  return sum;
}

/** Samples times a gain, in place, what is no finite number being nothing; the `fade` samples at both ends rise from silence as over `length`. */
export function faded(samples: usize, n: i32, gain: f64, fade: i32, length: i32): void {
  const end = samples + (<usize>n << 2);
  for (let at = samples; at < end; at += 4) {
    const x = <f64>load<f32>(at);
    store<f32>(at, x - x === 0 ? <f32>(x * gain) : 0);
  }
  for (let i = 0; i < fade; i++) {
    const share = <f64>i / <f64>length;
    const first = samples + (<usize>i << 2);
    const last = end - (<usize>(i + 1) << 2);
    store<f32>(first, <f32>(<f64>load<f32>(first) * share));
    store<f32>(last, <f32>(<f64>load<f32>(last) * share));
  }
}
