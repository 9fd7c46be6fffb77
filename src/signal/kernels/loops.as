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
export function energy(samples: usize, n: i32): f64 {
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
 * A low-pass and a high-pass side by side, and the first difference: adds their energies. `filters`: b0, b1, b2, a1, a2,
 * each for both; `state`: two vectors of filter memory, one of energies, then the sample before and the difference's energy.
 */
function fine(samples: usize, n: i32, filters: usize, state: usize): void {
  const b0 = v128.load(filters);
  const b1 = v128.load(filters, 16);
  const b2 = v128.load(filters, 32);
  const a1 = v128.load(filters, 48);
  const a2 = v128.load(filters, 64);
  let z1 = v128.load(state);
  let z2 = v128.load(state, 16);
  let sums = v128.load(state, 32);
  let before = load<f64>(state, 48);
  let difference = load<f64>(state, 56);
  for (let i = 0; i < n; i++) {
    const sample = <f64>load<f32>(samples + (<usize>i << 2));
    const d = sample - before;
    before = sample;
    difference += d * d;
    const x = f64x2.splat(sample);
    const y = f64x2.add(f64x2.mul(b0, x), z1);
    z1 = f64x2.add(f64x2.sub(f64x2.mul(b1, x), f64x2.mul(a1, y)), z2);
    z2 = f64x2.sub(f64x2.mul(b2, x), f64x2.mul(a2, y));
    sums = f64x2.add(sums, f64x2.mul(y, y));
  }
  v128.store(state, z1);
  v128.store(state, z2, 16);
  v128.store(state, sums, 32);
  store<f64>(state, before, 48);
  store<f64>(state, difference, 56);
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
    store<f32>(out, <f32>load<f64>(state, 56));
    store<f32>(out, <f32>load<f64>(state, 32), 4);
    store<f32>(out, <f32>load<f64>(state, 40), 8);
    v128.store(state, f64x2.splat(0), 32);
    store<f64>(state, 0, 56);
    out += 12;
    rows++;
    edge += perRow;
  }
  store<f64>(clock, count);
  store<f64>(clock, edge, 8);
  return rows;
}

/**
 * Every `factor`-th sample after one filter twice: the second works on the sample before the one the first is at. Gives
 * how many were kept. `filter`: b0, b1, b2, a1, a2, each twice; `state`: two vectors, the first lane of the first section.
 */
export function decimate(samples: usize, n: i32, skip: i32, factor: i32, filter: usize, state: usize, kept: usize): i32 {
  if (n === 0) return 0;
  const b0 = v128.load(filter);
  const b1 = v128.load(filter, 16);
  const b2 = v128.load(filter, 32);
  const a1 = v128.load(filter, 48);
  const a2 = v128.load(filter, 64);
  let z1 = v128.load(state);
  let z2 = v128.load(state, 16);
  let count = 0;
  let next = skip;
  let y = f64x2.splat(0);
  // Step n belongs to the second section alone, step 0 to the first: what the other lane holds then is put back.
  for (let i = 0; i <= n; i++) {
    const sample = i < n ? <f64>load<f32>(samples + (<usize>i << 2)) : 0;
    const x = f64x2.replace_lane(i64x2.shuffle(y, y, 0, 0), 0, sample);
    const w = f64x2.add(f64x2.mul(b0, x), z1);
    const n1 = f64x2.add(f64x2.sub(f64x2.mul(b1, x), f64x2.mul(a1, w)), z2);
    const n2 = f64x2.sub(f64x2.mul(b2, x), f64x2.mul(a2, w));
    if (i === 0) {
      z1 = f64x2.replace_lane(n1, 1, f64x2.extract_lane(z1, 1));
      z2 = f64x2.replace_lane(n2, 1, f64x2.extract_lane(z2, 1));
    } else if (i === n) {
      z1 = f64x2.replace_lane(n1, 0, f64x2.extract_lane(z1, 0));
      z2 = f64x2.replace_lane(n2, 0, f64x2.extract_lane(z2, 0));
    } else {
      z1 = n1;
      z2 = n2;
    }
    y = w;
    if (i - 1 === next) {
      store<f32>(kept + (<usize>count << 2), <f32>f64x2.extract_lane(w, 1));
      count++;
      next += factor;
    }
  }
  v128.store(state, z1);
  v128.store(state, z2, 16);
  return count;
}

/** Two sections after each other on two channels side by side: the sum of squares. Samples that are no numbers count as zero. */
export function weighted(left: usize, right: usize, n: i32, filters: usize, state: usize): f64 {
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
  const zero = f64x2.splat(0);
  let sum = f64x2.splat(0);
  for (let i = 0; i < n; i++) {
    const at = <usize>i << 2;
    const raw = f64x2.replace_lane(f64x2.splat(<f64>load<f32>(left + at)), 1, <f64>load<f32>(right + at));
    const x = v128.and(raw, f64x2.eq(f64x2.sub(raw, raw), zero));
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
  // A hair lower, so that rounding passes nothing over.
  let floor = f32x4.splat(<f32>(limit * 0.999999));
  for (let i = 0; i < n; ) {
    const at = samples + (<usize>i << 2);
    const here = f32x4.ge(f32x4.abs(v128.load(at)), floor);
    const next = f32x4.ge(f32x4.abs(v128.load(at, 4)), floor);
    if (!v128.any_true(v128.or(here, next))) {
      i += 4;
      continue;
    }
    const to = min(n, i + 4);
    for (; i < to; i++) {
      const found = peakBeside(samples + (<usize>i << 2), taps, phases, reach, above, limit, highest);
      if (found > highest) {
        highest = found;
        limit = highest * worth;
        floor = f32x4.splat(<f32>(limit * 0.999999));
      }
    }
  }
  return highest;
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
    let sum: f64 = 0;
    for (let k = 0; k < width; k++)
      sum += load<f64>(taps + (<usize>(p * width + k) << 3)) * <f64>load<f32>(from + (<usize>k << 2));
    const value = abs(sum);
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
export function beside(re: usize, im: usize, n: i32, turns: usize, sums: usize): void {
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

/**
 * How much the columns `first` to `last` (not included) of each row rise over the row `lag` rows earlier and its neighbouring
 * columns, whichever is highest: SuperFlux. Row r of `rows` rows is compared with the row at r, so `logs` holds rows + lag rows.
 */
export function rises(logs: usize, columns: i32, rows: i32, lag: i32, first: i32, last: i32, out: usize): void {
  const back = <usize>(lag * columns) << 2;
  for (let r = 0; r < rows; r++) {
    const before = logs + (<usize>(r * columns) << 2);
    const now = before + back;
    let sum: f64 = 0;
    for (let c = first; c < last; c++) {
      const at = <usize>c << 2;
      let earlier = load<f32>(before + at);
      const left: f32 = c > first ? load<f32>(before + at - 4) : 0;
      const right: f32 = c + 1 < last ? load<f32>(before + at, 4) : 0;
      if (left > earlier) earlier = left;
      if (right > earlier) earlier = right;
      const d = <f64>load<f32>(now + at) - <f64>earlier;
      if (d > 0) sum += d;
    }
    store<f32>(out + (<usize>r << 2), <f32>sum);
  }
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
