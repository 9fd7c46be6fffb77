/** The functions of the compiled loops, described in loops.as, bars.as and beats.as; pointers are byte offsets into the memory of the instance. */
export interface Loops {
  readonly memory: WebAssembly.Memory;
  split(left: number, right: number, mid: number, side: number, n: number): number;
  stereoRows(mid: number, side: number, n: number, perRow: number, state: number, out: number): number;
  fineRows(samples: number, n: number, perRow: number, filters: number, state: number, clock: number, out: number): number; // prettier-ignore
  quarter(samples: number, n: number, skip: number, gain: number, one: number, four: number, state: number, kept: number): number; // prettier-ignore
  weighted(left: number, right: number, n: number, filters: number, state: number): number;
  peak(samples: number, n: number, taps: number, phases: number, reach: number, worth: number, above: number, highest: number): number; // prettier-ignore
  windowed(frame: number, window: number, out: number, n: number): void;
  bands(spectrum: number, edges: number, count: number, out: number): void;
  classes(spectrum: number, count: number, bins: number, places: number, weights: number, out: number): void;
  turned(samples: number, n: number, rows: number, turns: number, states: number): void;
  besides(re: number, im: number, n: number, turns: number, count: number, sums: number): void;
  rises(logs: number, columns: number, rows: number, lag: number, first: number, last: number, out: number): void;
  phrasesFrom(b: number, bars: number, width: number, reach: number, phrases: number, stay: number, close: number, advance: number, section: number, edge: number, best: number, back: number): number; // prettier-ignore
  forwardFrom(b: number, bars: number, width: number, reach: number, stay: number, close: number, advance: number, section: number, edge: number, sums: number): void; // prettier-ignore
  backwardFrom(b: number, bars: number, width: number, reach: number, stay: number, close: number, advance: number, section: number, edge: number, ways: number, sums: number): void; // prettier-ignore
  likeness(values: number, n: number, steps: number, template: number, weight: number, out: number): void;
  differences(rows: number, columns: number, bars: number, reach: number, out: number): number;
  contrast(band: number, bars: number, reach: number, half: number, out: number): void;
  returning(band: number, bars: number, reach: number, passage: number, sums: number, begins: number, ends: number, known: number): void; // prettier-ignore
  apart(rows: number, columns: number, some: number, count: number, others: number, many: number, stride: number, out: number): void; // prettier-ignore
  grouped(rows: number, count: number, columns: number, groups: number, width: number, out: number): void;
  rising(levels: number, count: number, width: number, places: number, previous: number, out: number): void;
  chords(rows: number, frames: number, tops: number, mean: number, loudest: number, likeness: number, few: number): void; // prettier-ignore
  levelled(curve: number, n: number): void;
  smoothed(curve: number, n: number): void;
  shared(x: number, y: number, size: number, sums: number): void;
  within(curve: number, n: number, rate: number, start: number, beats: number, count: number, places: number, most: number, out: number): void; // prettier-ignore
  folded(curve: number, n: number, rate: number, start: number, beats: number, count: number, places: number, turns: number, sums: number): void; // prettier-ignore
  foldedLater(curve: number, n: number, rate: number, start: number, times: number, count: number, later: number, places: number, sums: number): void; // prettier-ignore
  along(values: number, path: number, from: number, to: number, steps: number, sums: number): void;
  staying(emission: number, rows: number, places: number, jump: number, score: number, back: number): void;
  gathered(rows: number, count: number, columns: number, size: number, share: number, out: number): void;
  running(rows: number, count: number, columns: number, size: number, sums: number): void;
  summed(rows: number, count: number, stride: number, used: number, sums: number): void;
  departed(sums: number, count: number, stride: number, used: number, span: number, out: number): void;
  distant(rows: number, count: number, stride: number, width: number, lag: number, out: number): void;
  alike(rows: number, count: number, width: number, lag: number, out: number): void;
  standardised(rows: number, count: number, width: number, few: number): void;
  changing(sums: number, rows: number, columns: number, used: number, rate: number, start: number, times: number, count: number, span: number, places: number, turns: number): void; // prettier-ignore
}
