import { sortFew } from './bar-tables.js';
import { PARTS, type BarFeatures, type BarVectors, type Part } from './bars.js';

/** Bars on either side that are compared. */
const SPANS = [4, 8] as const;
/** What a value must move by to count, in the units of each part (log10 of power or flux; square root of a share). */
const LEAST: Readonly<Record<Part, number>> = {
  low: 0.15,
  mid: 0.15,
  high: 0.15,
  rhythm: 0.1,
  level: 0.1,
  chroma: 0.05,
};

/** Names of the curves in their order. */
export const LASTING_CUES: readonly string[] = PARTS.flatMap((p) =>
  SPANS.flatMap((s) => [`comes ${p} ${s}`, `goes ${p} ${s}`, `moves ${p} ${s}`]),
);

/**
 * What comes at each bar and stays, or goes and stays away: the shares of a part's values (steps of the bar, groups of
 * frequencies, pitch classes) whose lower quartile after the bar lies above the upper quartile before it, and the other
 * way round; and by how much on average the quartiles are apart. An instrument that enters moves some of them for good,
 * a fill moves many for one bar.
 */
export function lastingChanges(features: BarFeatures): Float64Array[] {
  return PARTS.flatMap((p) => SPANS.flatMap((s) => changesOf(features[p], features.bars, s, LEAST[p])));
}

/** Bars at the very ends are compared with nothing. */
const LEAST_BARS = 2;

function changesOf({ values, columns }: BarVectors, bars: number, span: number, least: number): Float64Array[] {
  const [comes, goes, moves] = [0, 1, 2].map(() => new Float64Array(bars));
  const curve = new Float32Array(bars);
  // The window that ends before bar i: what comes before bar b ends at b, what comes after it at b + span.
  const low = new Float32Array(bars + span);
  const high = new Float32Array(bars + span);
  for (let c = 0; c < columns; c++) {
    for (let b = 0; b < bars; b++) curve[b] = values[b * columns + c];
    setQuartiles(curve, span, low, high);
    for (let b = LEAST_BARS; b < bars - 1; b++) {
      const up = low[b + span] - high[b];
      const down = low[b] - high[b + span];
      if (up > least) comes[b] += 1 / columns;
      if (down > least) goes[b] += 1 / columns;
      if (up > 0) moves[b] += up / columns;
      if (down > 0) moves[b] += down / columns;
    }
  }
  return [comes, goes, moves];
}

/** Quartiles of the `span` values before each place, of fewer at the ends. */
function setQuartiles(curve: Float32Array, span: number, low: Float32Array, high: Float32Array): void {
  const sorted = new Float32Array(span);
  for (let i = 1; i < curve.length + span; i++) {
    const from = Math.max(0, i - span);
    const count = Math.min(curve.length, i) - from;
    for (let k = 0; k < count; k++) sorted[k] = curve[from + k];
    sortFew(sorted, count);
    low[i] = sorted[Math.round(0.25 * (count - 1))];
    high[i] = sorted[Math.round(0.75 * (count - 1))];
  }
}
