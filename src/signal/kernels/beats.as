// AssemblyScript: the loops over beats, compiled into loops.wasm with those over samples and bars. Pointers are byte offsets; sums
// are in the order of plain loops, so that they come out the same.

/** A curve of `n` values read between its rows at a time; 0 outside. */
function valueAt(curve: usize, n: i32, rate: f64, start: f64, time: f64): f64 {
  const x = (time - start) * rate;
  const row = floor(x);
  if (row < 0 || row + 1 >= <f64>n) return 0;
  const at = curve + (<usize>row << 2);
  const value = <f64>load<f32>(at);
  return value + (x - row) * (<f64>load<f32>(at, 4) - value);
}

/**
 * A curve at `places` even places of each of `count` beats, no higher than `most`. `beats` holds one time more than there are
 * beats; `out` has a row for each beat.
 */
export function within(curve: usize, n: i32, rate: f64, start: f64, beats: usize, count: i32, places: i32, most: f64, out: usize): void {
  for (let b = 0; b < count; b++) {
    const at = load<f64>(beats + (<usize>b << 3));
    const step = (load<f64>(beats + (<usize>b << 3), 8) - at) / <f64>places;
    for (let j = 0; j < places; j++) {
      store<f64>(out, min(valueAt(curve, n, rate, start, at + <f64>j * step), most));
      out += 8;
    }
  }
}

/** The same added up over every beat of `turns` in turn: `places` sums for the first of them, and so on. */
export function folded(curve: usize, n: i32, rate: f64, start: f64, beats: usize, count: i32, places: i32, turns: i32, sums: usize): void {
  for (let b = 0; b < count; b++) {
    const at = load<f64>(beats + (<usize>b << 3));
    const step = (load<f64>(beats + (<usize>b << 3), 8) - at) / <f64>places;
    const row = sums + (<usize>((b % turns) * places) << 3);
    for (let j = 0; j < places; j++) {
      const to = row + (<usize>j << 3);
      store<f64>(to, load<f64>(to) + valueAt(curve, n, rate, start, at + <f64>j * step));
    }
  }
}

/** Sums of a curve at `count` times, each so much later. */
export function foldedLater(curve: usize, n: i32, rate: f64, start: f64, times: usize, count: i32, later: usize, places: i32, sums: usize): void {
  for (let j = 0; j < places; j++) {
    const off = load<f64>(later + (<usize>j << 3));
    let sum: f64 = 0;
    for (let i = 0; i < count; i++) sum += valueAt(curve, n, rate, start, load<f64>(times + (<usize>i << 3)) + off);
    store<f64>(sums + (<usize>j << 3), sum);
  }
}

/** Sums over the beats `from` to `to` (not included) of `steps` values, read from a place in the beat that `path` holds as i16. */
export function along(values: usize, path: usize, from: i32, to: i32, steps: i32, sums: usize): void {
  for (let b = from; b < to; b++) {
    const at = values + (<usize>(b * steps + <i32>load<i16>(path + (<usize>b << 1))) << 2);
    for (let j: usize = 0; j < <usize>steps; j++) {
      const sum = sums + (j << 3);
      store<f64>(sum, load<f64>(sum) + <f64>load<f32>(at + (j << 2)));
    }
  }
}

/**
 * Viterbi over `places` states that stay as they are or jump to any other for `jump` nats. `score`: of each state before the
 * first row, and after the last one when it is done, with as much room behind it; `back`: the state before, for each row and state.
 */
export function staying(emission: usize, rows: i32, places: i32, jump: f64, score: usize, back: usize): void {
  const width = <usize>places << 3;
  for (let r = 0; r < rows; r++) {
    let top = 0;
    let highest = load<f64>(score);
    for (let p = 1; p < places; p++) {
      const value = load<f64>(score + (<usize>p << 3));
      if (value > highest) {
        highest = value;
        top = p;
      }
    }
    for (let p = 0; p < places; p++) {
      const at = score + (<usize>p << 3);
      const stay = load<f64>(at);
      const jumps = highest - jump > stay;
      store<f64>(at, (jumps ? highest - jump : stay) + load<f64>(emission + (<usize>p << 3)));
      store<i16>(back, <i16>(jumps ? top : p));
      back += 2;
    }
    emission += width;
  }
}

/** Adds `rows` rows to groups of `size` columns each, every value over `share`. */
export function gathered(rows: usize, count: i32, columns: i32, size: i32, share: f64, out: usize): void {
  for (let r = 0; r < count; r++) {
    let to = out;
    for (let c = 0; c < columns; to += 8) {
      let sum = load<f64>(to);
      for (const last = min(c + size, columns); c < last; c++) sum += <f64>load<f32>(rows + (<usize>c << 2)) / share;
      store<f64>(to, sum);
    }
    rows += <usize>columns << 2;
  }
}

/** Goes on with running sums of groups of `size` columns: the row behind `sums` is the one there and the mean of the groups, and so on. */
export function running(rows: usize, count: i32, columns: i32, size: i32, sums: usize): void {
  const width = <usize>((columns + size - 1) / size) << 3;
  for (let r = 0; r < count; r++) {
    for (let c = 0; c < columns; sums += 8) {
      let sum = load<f64>(sums);
      for (const last = min(c + size, columns); c < last; c++) sum += <f64>load<f32>(rows + (<usize>c << 2)) / <f64>size;
      store<f64>(sums + width, sum);
    }
    rows += <usize>columns << 2;
  }
}

/** Running sums of the first `used` of `stride` columns: row r of `sums` holds those of the rows before r. */
export function summed(rows: usize, count: i32, stride: i32, used: i32, sums: usize): void {
  const width = <usize>used << 3;
  for (let r = 0; r < count; r++) {
    for (let at: usize = 0; at < width; at += 8)
      store<f64>(sums + width + at, load<f64>(sums + at) + load<f64>(rows + at));
    sums += width;
    rows += <usize>stride << 3;
  }
}

/** Squared distance between the means of the `span` rows before and after each row, fewer near the ends and counted by their share. */
export function departed(sums: usize, count: i32, stride: i32, used: i32, span: i32, out: usize): void {
  const width = <usize>stride << 3;
  for (let r = 1; r < count; r++) {
    const k = min(span, min(r, count - r));
    const here = sums + <usize>r * width;
    const reach = <usize>k * width;
    let d: f64 = 0;
    for (let at: usize = 0; at < <usize>used << 3; at += 8) {
      const middle = load<f64>(here + at);
      const before = middle - load<f64>(here + at - reach);
      const after = load<f64>(here + at + reach) - middle;
      const off = (after - before) / <f64>k;
      d += off * off;
    }
    store<f64>(out + (<usize>r << 3), (d * <f64>k) / <f64>span / <f64>used);
  }
}

/** Distance of each row from the one `lag` before, over `width` of `stride` columns; nothing is written where there is none. */
export function distant(rows: usize, count: i32, stride: i32, width: i32, lag: i32, out: usize): void {
  const back = <usize>(lag * stride) << 3;
  for (let r = lag; r < count; r++) {
    const row = rows + (<usize>(r * stride) << 3);
    let sum: f64 = 0;
    for (let at: usize = 0; at < <usize>width << 3; at += 8) {
      const off = load<f64>(row + at) - load<f64>(row + at - back);
      sum += off * off;
    }
    store<f64>(out + (<usize>r << 3), Math.sqrt(sum));
  }
}

/** Sum of products of each row and the one `lag` before; nothing is written where there is none. */
export function alike(rows: usize, count: i32, width: i32, lag: i32, out: usize): void {
  const back = <usize>(lag * width) << 3;
  for (let r = max(lag, 0); r < count; r++) {
    const row = rows + (<usize>(r * width) << 3);
    let sum: f64 = 0;
    for (let at: usize = 0; at < <usize>width << 3; at += 8) sum += load<f64>(row + at) * load<f64>(row + at - back);
    store<f64>(out + (<usize>r << 3), sum);
  }
}

/** Each column to mean 0 and deviation 1, then each row to length 1. `few`: room for two values a column. */
export function standardised(rows: usize, count: i32, width: i32, few: usize): void {
  const row = <usize>width << 3;
  const end = rows + <usize>count * row;
  const n = <f64>max(count, 1);
  for (let at: usize = 0; at < row; at += 8) {
    let mean: f64 = 0;
    for (let place = rows + at; place < end; place += row) mean += load<f64>(place);
    mean /= n;
    let deviation: f64 = 0;
    for (let place = rows + at; place < end; place += row) {
      const off = load<f64>(place) - mean;
      deviation += off * off;
    }
    store<f64>(few + at, mean);
    store<f64>(few + row + at, Math.sqrt(deviation / n + 1e-6));
  }
  for (let place = rows; place < end; place += row) {
    let sum: f64 = 0;
    for (let at: usize = 0; at < row; at += 8) {
      const value = (load<f64>(place + at) - load<f64>(few + at)) / load<f64>(few + row + at);
      store<f64>(place + at, value);
      sum += value * value;
    }
    const length = sum > 0 ? Math.sqrt(sum) : 1;
    for (let at: usize = 0; at < row; at += 8) store<f64>(place + at, load<f64>(place + at) / length);
  }
}

/** The whole number nearest to one, halves upwards. */
function nearest(x: f64): i32 {
  const up = Math.ceil(x);
  return <i32>(up - 0.5 > x ? up - 1 : up);
}

/**
 * Squared distance of the means of the first `used` columns over `span` before and after each of `count` times, four a beat, from
 * running sums; each is squared once more and added to `places` by its place in the beat, those on beats to `turns` by fours.
 */
export function changing(sums: usize, rows: i32, columns: i32, used: i32, rate: f64, start: f64, times: usize, count: i32, span: f64, places: usize, turns: usize): void {
  const width = <usize>columns << 3;
  const k = max(1, nearest(span * rate));
  for (let i = 0; i < count; i++) {
    const x = nearest((load<f64>(times + (<usize>i << 3)) - start) * rate);
    const before = x - max(0, x - k);
    const after = min(rows, x + k) - x;
    if (<f64>before < <f64>k / 2 || <f64>after < <f64>k / 2) continue;
    const here = sums + <usize>x * width;
    const first = here - <usize>before * width;
    const last = here + <usize>after * width;
    let sum: f64 = 0;
    for (let at: usize = 0; at < <usize>used << 3; at += 8) {
      const middle = load<f64>(here + at);
      const d = (load<f64>(last + at) - middle) / <f64>after - (middle - load<f64>(first + at)) / <f64>before;
      sum += d * d;
    }
    const value = sum * sum;
    const place = places + (<usize>(i & 3) << 3);
    store<f64>(place, load<f64>(place) + value);
    if ((i & 3) !== 0) continue;
    const turn = turns + (<usize>((i >> 2) & 3) << 3);
    store<f64>(turn, load<f64>(turn) + value);
  }
}

/** Brings a curve to mean 1; one of nothing stays nothing. */
export function levelled(curve: usize, n: i32): void {
  const end = curve + (<usize>n << 2);
  let sum: f64 = 0;
  for (let at = curve; at < end; at += 4) sum += <f64>load<f32>(at);
  const scale = sum > 0 ? <f64>n / sum : 0;
  for (let at = curve; at < end; at += 4) store<f32>(at, <f32>(<f64>load<f32>(at) * scale));
}

/** A curve smoothed by a triangle of five rows, in place; the two rows at either end become 0. */
export function smoothed(curve: usize, n: i32): void {
  let a: f64 = 0;
  let b: f64 = 0;
  let c: f64 = 0;
  let d: f64 = 0;
  for (let i = 0; i < n; i++) {
    const at = curve + (<usize>i << 2);
    const e = <f64>load<f32>(at);
    // The middle of the five is two rows back.
    if (i >= 4) store<f32>(at - 8, <f32>((a + 2 * b + 3 * c + 2 * d + e) / 9));
    else if (i < 2) store<f32>(at, 0);
    a = b;
    b = c;
    c = d;
    d = e;
  }
  for (let i = max(0, n - 2); i < n; i++) store<f32>(curve + (<usize>i << 2), 0);
}

/**
 * Adds the spectrum of what one block has in common with another at every lag. In the spectrum of a + ib, a and b real, that
 * of a is what the bins at k and at −k have in common, that of b what they differ in; in the sums the products of a are real
 * parts after the way back, those of b imaginary parts.
 */
export function shared(x: usize, y: usize, size: i32, sums: usize): void {
  for (let k = 0; k <= size >> 1; k++) {
    const here = <usize>k << 4;
    const there = <usize>((size - k) % size) << 4;
    const aRe = load<f64>(x + here) + load<f64>(x + there);
    const aIm = load<f64>(x + here, 8) - load<f64>(x + there, 8);
    const bRe = load<f64>(x + here, 8) + load<f64>(x + there, 8);
    const bIm = load<f64>(x + there) - load<f64>(x + here);
    const cRe = load<f64>(y + here) + load<f64>(y + there);
    const cIm = load<f64>(y + here, 8) - load<f64>(y + there, 8);
    const dRe = load<f64>(y + here, 8) + load<f64>(y + there, 8);
    const dIm = load<f64>(y + there) - load<f64>(y + here);
    const pRe = (aRe * cRe + aIm * cIm) / 4;
    const pIm = (aRe * cIm - aIm * cRe) / 4;
    const qRe = (bRe * dRe + bIm * dIm) / 4;
    const qIm = (bRe * dIm - bIm * dRe) / 4;
    store<f64>(sums + here, load<f64>(sums + here) + (pRe - qIm));
    store<f64>(sums + here, load<f64>(sums + here, 8) + (pIm + qRe), 8);
    if (here === there) continue;
    store<f64>(sums + there, load<f64>(sums + there) + (pRe + qIm));
    store<f64>(sums + there, load<f64>(sums + there, 8) + (qRe - pIm), 8);
  }
}

/** Running sums of the roots of rows of powers, each row as shares of all its roots: row r of `sums` holds those of the rows before r. */
export function rootShares(rows: usize, count: i32, columns: i32, sums: usize): void {
  const width = <usize>columns << 2;
  for (let r = 0; r < count; r++) {
    let total: f64 = 1e-9;
    for (let at: usize = 0; at < width; at += 4) total += Math.sqrt(<f64>load<f32>(rows + at));
    for (let at: usize = 0; at < width; at += 4) {
      const to = sums + (at << 1);
      store<f64>(to + (width << 1), load<f64>(to) + Math.sqrt(<f64>load<f32>(rows + at)) / total);
    }
    rows += width;
    sums += width << 1;
  }
}
