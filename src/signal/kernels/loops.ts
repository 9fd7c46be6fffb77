/** The functions of the compiled loops, described in the files beside this one; pointers are byte offsets into the memory of the instance. */
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
  lasting(values: number, columns: number, bars: number, span: number, least: number, low: number, high: number, few: number, comes: number, goes: number, moves: number): void; // prettier-ignore
  shifts(values: number, columns: number, bars: number, span: number, least: number, few: number, out: number): void;
  quantiles(table: number, width: number, starts: number, bars: number, shares: number, count: number, few: number, out: number, stride: number): void; // prettier-ignore
  means(table: number, width: number, starts: number, bars: number, beat: number, first: number, last: number, usual: number, few: number, out: number, stride: number): void; // prettier-ignore
  averaged(frames: number, width: number, first: number, count: number, total: number, edges: number, step: number, steps: number, out: number): number; // prettier-ignore
  patterns(table: number, width: number, starts: number, bars: number, places: number, groups: number, count: number, out: number): void; // prettier-ignore
  treeOdds(values: number, rows: number, columns: number, base: number, depth: number, count: number, cues: number, limits: number, leaves: number, out: number): void; // prettier-ignore
  unitOdds(values: number, rows: number, columns: number, count: number, limit: number, mean: number, scale: number, weights: number, bias: number, hidden: number, thresholds: number, counts: number, units: number, few: number, out: number): void; // prettier-ignore
  courseOf(evidence: number, count: number, moves: number, begin: number, forward: number, backward: number, presence: number, on: number): void; // prettier-ignore
  tapered(samples: number, window: number, n: number, out: number): void;
  magnitudes(spectrum: number, bins: number, out: number): void;
  envelope(spectrum: number, stretches: number, weights: number, count: number, nothing: number, levels: number): void;
  peaksOf(spectrum: number, first: number, last: number, width: number, highest: number, threshold: number, most: number, peaks: number): number; // prettier-ignore
  whitened(peaks: number, count: number, levels: number, step: number, depth: number, tilt: number, nothing: number): void; // prettier-ignore
  addPeaks(profile: number, peaks: number, count: number, lowest: number, tuning: number, tuned: number, partials: number, many: number): void; // prettier-ignore
  levels(powers: number, n: number, gain: number, floor: number, scale: number, out: number): void;
  compressed(powers: number, rows: number, width: number, gain: number, references: number, out: number): void;
  placed(count: number, first: number, edges: number, steps: number, rate: number, step: number, places: number): number; // prettier-ignore
  heldClasses(rows: number, frames: number, low: number, middle: number, tops: number, floor: number, few: number, held: number, usual: number, together: number): void; // prettier-ignore
  closeness(values: number, n: number, scale: number): void;
  addShares(out: number, values: number, n: number, share: number): void;
  breaks(band: number, bars: number, reach: number, out: number): void;
  crests(curves: number, count: number, bars: number, out: number): void;
  paired(a: number, b: number, n: number, meanOfA: number, meanOfB: number, size: number, out: number): void;
  windows(curve: number, rows: number, from: number, step: number, taper: number, width: number, out: number): void;
  salience(spectrum: number, size: number, magnitudes: number, highest: number, places: number, octaves: number, many: number, count: number, out: number): void; // prettier-ignore
  circling(values: number, rows: number, bins: number, evidence: number, move: number, farthest: number, jump: number, score: number, next: number, back: number): void; // prettier-ignore
  distances(rows: number, columns: number, bars: number, lags: number, count: number, sums: number): void;
  meanCloseness(distances: number, some: number, count: number, others: number, many: number, scales: number, parts: number): number; // prettier-ignore
  evenTurns(turns: number, pairs: number, n: number, angle: number, turn: number): void;
  lengths(sums: number, count: number, behind: number, out: number): void;
  energies(left: number, right: number, n: number, sums: number): void;
  squares(samples: number, n: number): number;
  faded(samples: number, n: number, gain: number, fade: number, length: number): void;
  rootShares(rows: number, count: number, columns: number, sums: number): void;
}
