// AssemblyScript: the loops over bars, compiled into loops.wasm with those over samples and beats. Pointers are byte offsets; sums
// are in the order of plain loops, so that they come out the same.

import { exp } from './logs';

/**
 * Mean squared difference of the rows of each two bars up to `reach` apart, at i·(reach + 1) + lag; gives the sum of all. Two
 * lags are worked out side by side.
 */
export function differences(rows: usize, columns: i32, bars: i32, reach: i32, out: usize): f64 {
  const row = <usize>columns << 2;
  const count = f64x2.splat(<f64>columns);
  let sum: f64 = 0;
  for (let i = 0; i < bars; i++) {
    const own = rows + <usize>i * row;
    const far = min(reach, bars - 1 - i);
    const to = out + (<usize>(i * (reach + 1)) << 2);
    for (let lag = 1; lag <= far; lag += 2) {
      const first = own + <usize>lag * row;
      const second = lag < far ? first + row : first;
      let d = f64x2.splat(0);
      for (let at: usize = 0; at < row; at += 4) {
        const others = f64x2(<f64>load<f32>(first + at), <f64>load<f32>(second + at));
        const off = f64x2.sub(f64x2.splat(<f64>load<f32>(own + at)), others);
        d = f64x2.add(d, f64x2.mul(off, off));
      }
      d = f64x2.div(d, count);
      store<f32>(to + (<usize>lag << 2), <f32>f64x2.extract_lane(d, 0));
      sum += f64x2.extract_lane(d, 0);
      if (lag === far) break;
      store<f32>(to + (<usize>lag << 2), <f32>f64x2.extract_lane(d, 1), 4);
      sum += f64x2.extract_lane(d, 1);
    }
  }
  return sum;
}

/** Value of two bars, in either order, in a band laid out as `differences` does. */
function valueOf(band: usize, reach: i32, i: i32, j: i32): f64 {
  const first = min(i, j);
  return <f64>load<f32>(band + (<usize>(first * reach + max(i, j)) << 2));
}

/** For each bar the values inside the `half` bars before and inside the `half` bars after, less those across; fewer at the ends, scaled up. */
export function contrast(band: usize, bars: i32, reach: i32, half: i32, out: usize): void {
  for (let b = 1; b < bars; b++) {
    const h = min(half, min(b, bars - b));
    let sum: f64 = 0;
    for (let i = -h; i < h; i++) {
      for (let j = -h; j < h; j++) {
        const value = valueOf(band, reach, b + i, b + j);
        sum += i < 0 === j < 0 ? value : -value;
      }
    }
    const share = <f64>half / <f64>h;
    store<f64>(out + (<usize>b << 3), sum * (share * share));
  }
}

/** Raises both ends of a diagonal to a value. */
function raise(curve: usize, a: i32, lag: i32, value: f64): void {
  const at = curve + (<usize>a << 3);
  const there = at + (<usize>lag << 3);
  if (value > load<f64>(at)) store<f64>(at, value);
  if (value > load<f64>(there)) store<f64>(there, value);
}

/**
 * Passages of `passage` bars that are matched elsewhere: at each bar the largest gain of a match over the passage before it, the
 * largest loss, and the best match. `sums`: room for one value a bar and one more.
 */
export function returning(band: usize, bars: i32, reach: i32, passage: i32, sums: usize, begins: usize, ends: usize, known: usize): void {
  const length = <f64>passage;
  const step = <usize>passage << 3;
  for (let lag = passage; lag <= reach && lag < bars; lag++) {
    let sum: f64 = 0;
    store<f64>(sums, 0);
    for (let i = 0; i + lag < bars; i++) {
      sum += <f64>load<f32>(band + (<usize>(i * (reach + 1) + lag) << 2));
      store<f64>(sums + (<usize>i << 3), sum, 8);
    }
    for (let a = passage; a + lag + passage <= bars; a++) {
      const at = sums + (<usize>a << 3);
      const after = (load<f64>(at + step) - load<f64>(at)) / length;
      const before = (load<f64>(at) - load<f64>(at - step)) / length;
      raise(begins, a, lag, after - before);
      raise(ends, a, lag, before - after);
      raise(known, a, lag, after);
    }
  }
}

/**
 * Squared distances of the rows of some bars to those of others, `many` to a row, each `stride` values after the one before. Two of
 * the others are worked out side by side.
 */
export function apart(rows: usize, columns: i32, some: usize, count: i32, others: usize, many: i32, stride: i32, out: usize): void {
  const row = <usize>columns << 2;
  const step = <usize>stride << 3;
  for (let i = 0; i < count; i++) {
    const a = rows + <usize>load<i32>(some + (<usize>i << 2)) * row;
    for (let j = 0; j < many; j += 2) {
      const b = rows + <usize>load<i32>(others + (<usize>j << 2)) * row;
      const both = j + 1 < many;
      const c = both ? rows + <usize>load<i32>(others + (<usize>j << 2), 4) * row : b;
      let d = f64x2.splat(0);
      for (let at: usize = 0; at < row; at += 4) {
        const pair = f64x2(<f64>load<f32>(b + at), <f64>load<f32>(c + at));
        const off = f64x2.sub(f64x2.splat(<f64>load<f32>(a + at)), pair);
        d = f64x2.add(d, f64x2.mul(off, off));
      }
      store<f64>(out, f64x2.extract_lane(d, 0));
      if (both) store<f64>(out + step, f64x2.extract_lane(d, 1));
      out += both ? 2 * step : step;
    }
  }
}

/** Adds up the columns of each row by their groups: `groups` holds the group of each column as i32. */
export function grouped(rows: usize, count: i32, columns: i32, groups: usize, width: i32, out: usize): void {
  for (let r = 0; r < count; r++) {
    for (let c = 0; c < columns; c++) {
      const to = out + (<usize>load<i32>(groups + (<usize>c << 2)) << 2);
      store<f32>(to, <f32>(<f64>load<f32>(to) + <f64>load<f32>(rows + (<usize>c << 2))));
    }
    rows += <usize>columns << 2;
    out += <usize>width << 2;
  }
}

/** Adds to the row that `places` holds for each of `count` rows by how much its columns rise from the row before; −1 is no row. */
export function rising(levels: usize, count: i32, width: i32, places: usize, previous: usize, out: usize): void {
  for (let r = 0; r < count; r++) {
    const place = load<i32>(places + (<usize>r << 2));
    for (let c = 0; c < width; c++) {
      const at = <usize>c << 3;
      const rise = load<f64>(levels + at) - load<f64>(previous + at);
      store<f64>(previous + at, load<f64>(levels + at));
      if (place < 0 || !(rise > 0)) continue;
      const to = out + (<usize>(place * width + c) << 2);
      store<f32>(to, <f32>(<f64>load<f32>(to) + rise));
    }
    levels += <usize>width << 3;
  }
}

/** Cosine of the angle between two rows of twelve powers, given as f32 and f64; 0 where one is silent. */
function cosine(a: usize, b: usize): f64 {
  let ab: f64 = 0;
  let aa: f64 = 0;
  let bb: f64 = 0;
  for (let c: usize = 0; c < 12; c++) {
    const x = <f64>load<f32>(a + (c << 2));
    const y = load<f64>(b + (c << 3));
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}

/**
 * Of `frames` rows of twelve powers: the five highest of each, highest first, to `tops`; the mean row; how often each class is the
 * highest; and the mean cosines of the rows with the mean row and with the row before, to `likeness`. `few`: room for twelve values.
 */
export function chords(rows: usize, frames: i32, tops: usize, mean: usize, loudest: usize, likeness: usize, few: usize): void {
  const n = <f64>frames;
  for (let r = 0; r < frames; r++) {
    const row = rows + <usize>(r * 48);
    let highest: usize = 0;
    for (let i: usize = 0; i < 12; i++) {
      const value = <f64>load<f32>(row + (i << 2));
      if (value > <f64>load<f32>(row + (highest << 2))) highest = i;
      store<f64>(mean + (i << 3), load<f64>(mean + (i << 3)) + value / n);
      let at = few + (i << 3);
      for (; at > few && load<f64>(at - 8) < value; at -= 8) store<f64>(at, load<f64>(at - 8));
      store<f64>(at, value);
    }
    store<f64>(loudest + (highest << 3), load<f64>(loudest + (highest << 3)) + 1);
    memory.copy(tops + <usize>(r * 40), few, 40);
  }
  let toMean: f64 = 0;
  let toLast: f64 = 0;
  for (let r = 0; r < frames; r++) {
    const row = rows + <usize>(r * 48);
    toMean += cosine(row, mean) / n;
    if (r > 0) {
      for (let c: usize = 0; c < 12; c++) store<f64>(few + (c << 3), <f64>load<f32>(row - 48 + (c << 2)));
      toLast += cosine(row, few) / (n - 1);
    }
  }
  store<f64>(likeness, toMean);
  store<f64>(likeness, toLast, 8);
}

/** exp(−scale · value) of `n` values, in place. */
export function closeness(values: usize, n: i32, scale: f64): void {
  for (const end = values + (<usize>n << 2); values < end; values += 4)
    store<f32>(values, <f32>exp(-(<f64>load<f32>(values)) * scale));
}

/** Adds each of `n` values over a share to others. */
export function addShares(out: usize, values: usize, n: i32, share: f64): void {
  for (let at: usize = 0; at < <usize>n << 2; at += 4)
    store<f32>(out + at, <f32>(<f64>load<f32>(out + at) + <f64>load<f32>(values + at) / share));
}

/** For each bar from the fifth on, how much less the bar before it is like the three before that than those are like each other. */
export function breaks(band: usize, bars: i32, reach: i32, out: usize): void {
  for (let b = 4; b < bars; b++) {
    const among = valueOf(band, reach, b - 4, b - 3) + valueOf(band, reach, b - 3, b - 2) + valueOf(band, reach, b - 4, b - 2);
    const last = valueOf(band, reach, b - 4, b - 1) + valueOf(band, reach, b - 3, b - 1) + valueOf(band, reach, b - 2, b - 1);
    store<f64>(out + (<usize>b << 3), among / 3 - last / 3);
  }
}

/** Sum of the squared distances of the rows of bars that are so many apart, and how many there are, to `sums`. */
export function distances(rows: usize, columns: i32, bars: i32, lags: usize, count: i32, sums: usize): void {
  const row = <usize>columns << 2;
  let sum: f64 = 0;
  let pairs: f64 = 0;
  for (let b = 0; b < bars; b++) {
    for (let k = 0; k < count; k++) {
      const lag = load<i32>(lags + (<usize>k << 2));
      if (b + lag >= bars) break;
      const own = rows + <usize>b * row;
      const other = own + <usize>lag * row;
      let d: f64 = 0;
      for (let at: usize = 0; at < row; at += 4) {
        const off = <f64>load<f32>(own + at) - <f64>load<f32>(other + at);
        d += off * off;
      }
      sum += d;
      pairs++;
    }
  }
  store<f64>(sums, sum);
  store<f64>(sums, pairs, 8);
}

/** Mean of exp(−distance / scale) over the parts of all pairs of different bars, distances laid out as by `apart`; 1 where there are none. */
export function meanCloseness(distances: usize, some: usize, count: i32, others: usize, many: i32, scales: usize, parts: i32): f64 {
  let sum: f64 = 0;
  let pairs = 0;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < many; j++) {
      if (load<i32>(some + (<usize>i << 2)) !== load<i32>(others + (<usize>j << 2))) {
        for (let k: usize = 0; k < <usize>parts; k++)
          sum += exp(-load<f64>(distances + (k << 3)) / load<f64>(scales + (k << 3)));
        pairs += parts;
      }
      distances += <usize>parts << 3;
    }
  }
  return pairs > 0 ? sum / <f64>pairs : 1;
}
