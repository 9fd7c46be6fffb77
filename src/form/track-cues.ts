import type { LayerCues } from './layer-cues.js';

/** Share of a track's bars that lie below what counts as full in it. */
const FULL = 0.9;

/** Names of the cues of `withTrack`, by those of a bar alone. */
function trackCueNames(names: readonly string[]): string[] {
  return [
    ...names,
    ...names.map((name) => `${name}, under the track's full`),
    ...names.map((name) => `${name}, with the bars beside it under the track's full`),
  ];
}

/**
 * The cues of each bar, and how far each lies under what is full in this track (its 90th percentile), once for the bar and once
 * for the middle one of the bar and its neighbours. Whether a kick is in is told by other bars of the same track rather
 * than by other tracks: a bar that is as full as any has it, or none has.
 */
export function withTrack({ values, columns, names }: LayerCues): LayerCues {
  const bars = values.length / columns;
  const out = new Float32Array(3 * values.length);
  const column = new Float32Array(bars);
  for (let c = 0; c < columns; c++) {
    takeColumn(values, c, columns, column);
    fillColumn(out, c, columns, column, percentile(column, FULL));
  }
  return { values: out, columns: 3 * columns, names: trackCueNames(names) };
}

function takeColumn(values: Float32Array, c: number, columns: number, column: Float32Array): void {
  for (let b = 0, at = c; b < column.length; b++, at += columns) column[b] = values[at];
}

/** The three cues made of one. */
function fillColumn(out: Float32Array, c: number, columns: number, column: Float32Array, full: number): void {
  const last = column.length - 1;
  for (let b = 0; b <= last; b++) {
    const at = 3 * b * columns + c;
    const own = column[b];
    out[at] = own;
    out[at + columns] = own - full;
    out[at + 2 * columns] = middle(b > 0 ? column[b - 1] : own, own, b < last ? column[b + 1] : own) - full;
  }
}

/** By linear interpolation between order statistics. */
function percentile(values: Float32Array, share: number): number {
  const sorted = values.slice().sort();
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low] + (at - low) * (sorted[Math.min(low + 1, sorted.length - 1)] - sorted[low]);
}

function middle(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
