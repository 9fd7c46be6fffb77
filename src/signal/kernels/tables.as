// AssemblyScript: the loops over tables of steps and bars, compiled into loops.wasm with the others. Pointers are byte offsets;
// sums are in the order of plain loops, so that they come out the same.

import { log10 } from './logs';

/** The whole number nearest to one that is not negative, halves upwards. */
function rounded(x: f64): i32 {
  return <i32>floor(x + 0.5);
}

/** Sorts `count` values by insertion. */
function sort(values: usize, count: i32): void {
  const end = values + (<usize>count << 2);
  for (let from = values + 4; from < end; from += 4) {
    const value = load<f32>(from);
    let at = from;
    for (; at > values && load<f32>(at - 4) > value; at -= 4) store<f32>(at, load<f32>(at - 4));
    store<f32>(at, value);
  }
}

/** Copies `count` values that lie `step` bytes apart. */
function take(from: usize, step: usize, count: i32, to: usize): void {
  for (const end = to + (<usize>count << 2); to < end; to += 4) {
    store<f32>(to, load<f32>(from));
    from += step;
  }
}

/** Adds a value to what stands at a place. */
function add(at: usize, value: f64): void {
  store<f64>(at, load<f64>(at) + value);
}

/**
 * What comes, goes and moves at each of `bars` bars: each column's quartiles over the `span` bars from there against those over
 * the bars before. `low` and `high`: room for bars + span values; `few`: for `span`.
 */
export function lasting(values: usize, columns: i32, bars: i32, span: i32, least: f64, low: usize, high: usize, few: usize, comes: usize, goes: usize, moves: usize): void {
  const row = <usize>columns << 2;
  const n = <f64>columns;
  const reach = <usize>span << 2;
  for (let c = 0; c < columns; c++) {
    const column = values + (<usize>c << 2);
    for (let i = 1; i < bars + span; i++) {
      const from = max(0, i - span);
      const count = min(bars, i) - from;
      take(column + <usize>from * row, row, count, few);
      sort(few, count);
      const last = <f64>(count - 1);
      store<f32>(low + (<usize>i << 2), load<f32>(few + (<usize>rounded(0.25 * last) << 2)));
      store<f32>(high + (<usize>i << 2), load<f32>(few + (<usize>rounded(0.75 * last) << 2)));
    }
    for (let b = 2; b < bars - 1; b++) {
      const at = <usize>b << 2;
      const to = <usize>b << 3;
      const up = <f64>load<f32>(low + at + reach) - <f64>load<f32>(high + at);
      const down = <f64>load<f32>(low + at) - <f64>load<f32>(high + at + reach);
      if (up > least) add(comes + to, 1 / n);
      if (down > least) add(goes + to, 1 / n);
      if (up > 0) add(moves + to, up / n);
      if (down > 0) add(moves + to, down / n);
    }
  }
}

/** Lower median of a column over the bars from one to another. `few`: room for as many values. */
function medianOf(column: usize, row: usize, from: i32, to: i32, few: usize): f64 {
  take(column + <usize>from * row, row, to - from, few);
  sort(few, to - from);
  return <f64>load<f32>(few + (<usize>((to - from - 1) >> 1) << 2));
}

/**
 * The three largest changes of single columns at each bar, medians of up to `span` bars on either side, one after the other, and
 * how many are more than `least`. `few`: room for `span` values.
 */
export function shifts(values: usize, columns: i32, bars: i32, span: i32, least: f64, few: usize, out: usize): void {
  const row = <usize>columns << 2;
  const length = <usize>bars << 3;
  for (let b = 2; b < bars - 1; b++) {
    let first: f64 = 0;
    let second: f64 = 0;
    let third: f64 = 0;
    let count: f64 = 0;
    for (let c = 0; c < columns; c++) {
      const column = values + (<usize>c << 2);
      const after = medianOf(column, row, b, min(b + span, bars), few);
      const change = Math.abs(after - medianOf(column, row, max(b - span, 0), b, few));
      if (change > least) count++;
      if (change > first) {
        third = second;
        second = first;
        first = change;
      } else if (change > second) {
        third = second;
        second = change;
      } else if (change > third) third = change;
    }
    const to = out + (<usize>b << 3);
    store<f64>(to, first);
    store<f64>(to + length, second);
    store<f64>(to + 2 * length, third);
    store<f64>(to + 3 * length, count);
  }
}

/**
 * Order statistics of each column over the rows of each bar: `starts` holds the first row of each bar and one more, `shares` which of
 * the sorted values, from 0 to 1. A bar's values begin `stride` after those of the one before. `few`: room for a bar's rows.
 */
export function quantiles(table: usize, width: i32, starts: usize, bars: i32, shares: usize, count: i32, few: usize, out: usize, stride: i32): void {
  for (let b = 0; b < bars; b++) {
    const from = load<i32>(starts + (<usize>b << 2));
    const rows = load<i32>(starts + (<usize>b << 2), 4) - from;
    const to = out + (<usize>(b * stride) << 2);
    for (let c = 0; c < width; c++) {
      take(table + (<usize>(from * width + c) << 2), <usize>width << 2, rows, few);
      sort(few, rows);
      for (let q = 0; q < count; q++) {
        const place = rounded(load<f64>(shares + (<usize>q << 3)) * <f64>(rows - 1));
        store<f32>(to + (<usize>(q * width + c) << 2), load<f32>(few + (<usize>place << 2)));
      }
    }
  }
}

/**
 * Means of each column over those rows of each bar that lie in the quarters from `first` to `last` (not included) of `beat` rows,
 * over its usual value; laid out as `quantiles` does. `few`: room for a row of sums.
 */
export function means(table: usize, width: i32, starts: usize, bars: i32, beat: i32, first: i32, last: i32, usual: usize, few: usize, out: usize, stride: i32): void {
  for (let b = 0; b < bars; b++) {
    const from = load<i32>(starts + (<usize>b << 2));
    const end = load<i32>(starts + (<usize>b << 2), 4);
    memory.fill(few, 0, <usize>width << 3);
    let count = 0;
    for (let r = from; r < end; r++) {
      const quarter = (r - from) % beat;
      if (quarter < first || quarter >= last) continue;
      count++;
      for (let c = 0; c < width; c++)
        add(few + (<usize>c << 3), <f64>load<f32>(table + (<usize>(r * width + c) << 2)));
    }
    const to = out + (<usize>(b * stride) << 2);
    for (let c = 0; c < width; c++) {
      const sum = load<f64>(few + (<usize>c << 3));
      const mean = count > 0 ? sum / <f64>count : 0;
      store<f32>(to + (<usize>c << 2), <f32>(mean / load<f64>(usual + (<usize>c << 3))));
    }
  }
}

/** Adds `count` rows, each over a share, to a row of as many columns. */
function addRows(rows: usize, width: i32, count: i32, share: f64, out: usize): void {
  for (let r = 0; r < count; r++) {
    for (let at: usize = 0; at < <usize>width << 2; at += 4)
      store<f32>(out + at, <f32>(<f64>load<f32>(out + at) + <f64>load<f32>(rows + at) / share));
    rows += <usize>width << 2;
  }
}

/**
 * Adds frames `first` to `first + count` to the means of steps. `edges` holds the frame with which each of the steps from `step` on
 * begins, and one more; a step without a frame takes its first. Gives the step to go on with, which may have begun.
 */
export function averaged(frames: usize, width: i32, first: i32, count: i32, total: i32, edges: usize, step: i32, steps: i32, out: usize): i32 {
  const end = first + count;
  for (; step < steps; step++) {
    const from = load<i32>(edges + (<usize>step << 2));
    const to = max(load<i32>(edges + (<usize>step << 2), 4), from + 1);
    if (from >= end) return step;
    const begin = max(from, first);
    const last = min(min(to, end), total);
    if (last > begin)
      addRows(frames + (<usize>((begin - first) * width) << 2), width, last - begin, <f64>(to - from), out + (<usize>(step * width) << 2));
    // What does not end here goes on in the next frames.
    if (to > end) return step;
  }
  return step;
}

/**
 * Means of groups of columns on `places` even places of each bar: `groups` holds the first column of each group and how many it
 * has. `starts` as in `quantiles`.
 */
export function patterns(table: usize, width: i32, starts: usize, bars: i32, places: i32, groups: usize, count: i32, out: usize): void {
  for (let b = 0; b < bars; b++) {
    const from = load<i32>(starts + (<usize>b << 2));
    const length = load<i32>(starts + (<usize>b << 2), 4) - from;
    for (let s = 0; s < places; s++) {
      const row = from + min(<i32>floor(((<f64>s + 0.5) * <f64>length) / <f64>places), length - 1);
      for (let g = 0; g < count; g++) {
        const first = load<i32>(groups + (<usize>g << 3));
        const many = load<i32>(groups + (<usize>g << 3), 4);
        let sum: f64 = 0;
        for (let k = first; k < first + many; k++) sum += <f64>load<f32>(table + (<usize>(row * width + k) << 2));
        store<f32>(out, <f32>(sum / <f64>many));
        out += 4;
      }
    }
  }
}

/** scale · log10(power · gain + floor) of each of `n` powers. */
export function levels(powers: usize, n: i32, gain: f64, floor: f64, scale: f64, out: usize): void {
  for (let at: usize = 0; at < <usize>n << 2; at += 4)
    store<f32>(out + at, <f32>(scale * log10(<f64>load<f32>(powers + at) * gain + floor)));
}

/** log10(1 + gain · power / reference) of rows of `width` powers, each column over its own reference. */
export function compressed(powers: usize, rows: i32, width: i32, gain: f64, references: usize, out: usize): void {
  for (let r = 0; r < rows; r++) {
    for (let at: usize = 0; at < <usize>width << 2; at += 4) {
      store<f64>(out, log10(1 + (gain * <f64>load<f32>(powers + at)) / load<f64>(references + (at << 1))));
      out += 8;
    }
    powers += <usize>width << 2;
  }
}

/** The step in which each of `count` frames from `first` on lies, −1 for none; `edges` holds where each begins and one more. Gives the one to go on with. */
export function placed(count: i32, first: f64, edges: usize, steps: i32, rate: f64, step: i32, places: usize): i32 {
  for (let i = 0; i < count; i++) {
    const frame = first + <f64>i;
    while (step < steps && frame >= load<f64>(edges + (<usize>step << 3), 8) * rate) step++;
    const inside = step < steps && frame >= load<f64>(edges + (<usize>step << 3)) * rate;
    store<i32>(places + (<usize>i << 2), inside ? step : -1);
  }
  return step;
}

/**
 * Of `frames` rows of twelve powers: two order statistics of each class, the values that lie at the shares `low` and `middle` of the sorted
 * ones, to `held` and `usual`; and the mean decibels of the second to the fifth of the highest five of each frame against the first,
 * `floor` being added to each, to `together`. `tops`: the highest five of each frame; `few`: room for one value a frame.
 */
export function heldClasses(rows: usize, frames: i32, low: f64, middle: f64, tops: usize, floor: f64, few: usize, held: usize, usual: usize, together: usize): void {
  const last = <f64>(frames - 1);
  for (let c: usize = 0; c < 12; c++) {
    take(rows + (c << 2), 48, frames, few);
    sort(few, frames);
    store<f64>(held + (c << 3), <f64>load<f32>(few + (<usize>Math.floor(low * last) << 2)));
    store<f64>(usual + (c << 3), <f64>load<f32>(few + (<usize>Math.floor(middle * last) << 2)));
  }
  memory.fill(together, 0, 32);
  for (let r = 0; r < frames; r++) {
    const highest = load<f64>(tops) + floor;
    for (let k: usize = 0; k < 4; k++)
      add(together + (k << 3), (10 * log10((load<f64>(tops + (k << 3), 8) + floor) / highest)) / <f64>frames);
    tops += 40;
  }
}

/**
 * Some curves of one value a bar side by side in rows, and behind them how far each stands above the higher of the values of the bars
 * before and after, the end bars' own counting for what is missing.
 */
export function crests(curves: usize, count: i32, bars: i32, out: usize): void {
  const row = <usize>count << 3;
  for (let k = 0; k < count; k++) {
    const curve = curves + (<usize>(k * bars) << 3);
    let to = out + (<usize>k << 2);
    for (let b = 0; b < bars; b++) {
      const value = load<f64>(curve + (<usize>b << 3));
      const before = load<f64>(curve + (<usize>max(b - 1, 0) << 3));
      const after = load<f64>(curve + (<usize>min(b + 1, bars - 1) << 3));
      store<f32>(to, <f32>value);
      store<f32>(to + (row >> 1), <f32>(value - max(before, after)));
      to += row;
    }
  }
}
