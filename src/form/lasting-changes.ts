import { borrowKernels } from '../signal/index.js';
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

/** The first two bars and the last are compared with nothing. */
function changesOf({ values, columns }: BarVectors, bars: number, span: number, least: number): Float64Array[] {
  const kernels = borrowKernels(4 * values.length + 8 * (bars + span) + 4 * span + 24 * bars);
  const rows = kernels.floats(values.length);
  // Quartiles of the bars that end before bar i: what comes before bar b ends at b, what comes after it at b + span.
  const [low, high, few] = [bars + span, bars + span, span].map((length) => kernels.floats(length).at);
  const [comes, goes, moves] = [0, 1, 2].map(() => kernels.doubles(bars));
  rows.view.set(values);
  kernels.loops.lasting(rows.at, columns, bars, span, least, low, high, few, comes.at, goes.at, moves.at);
  return [comes, goes, moves].map(({ view }) => view.slice());
}

/** A group of frequencies that changes by this much (log10 of power) for good counts as changed. */
const CHANGED = 0.25;
/** Bars on either side whose medians are compared. */
const GROUP_BARS = 4;

/** The three largest lasting changes of single groups of frequencies at each bar, and how many groups change. */
export function groupChanges({ level, bars }: BarFeatures): Float64Array[] {
  const kernels = borrowKernels(4 * (level.values.length + GROUP_BARS) + 32 * bars);
  const [rows, few] = [kernels.floats(level.values.length), kernels.floats(GROUP_BARS)];
  const out = kernels.doubles(4 * bars);
  rows.view.set(level.values);
  kernels.loops.shifts(rows.at, level.columns, bars, GROUP_BARS, CHANGED, few.at, out.at);
  return [0, 1, 2, 3].map((k) => out.view.slice(k * bars, (k + 1) * bars));
}
