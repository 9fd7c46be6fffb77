import type { TrackAnalysis } from '../track/index.js';
import { rowBars } from './cells.js';
import type { LadderGeometry, LadderOptions, LadderPage, Rung } from './geometry.js';
import { LANES, lettersWidth, unjudgedLayers } from './lanes.js';
import { measureText } from './measure.js';
import { SCREEN_METRICS } from './metrics.js';
import { paginate } from './pages.js';
import { patternBreaks } from './pattern.js';
import { ladderRows } from './rows.js';
import type { RungFrame } from './frame.js';
import { placeRung } from './rung.js';
import { ENGLISH, type LadderWords } from './words.js';

/** A bar is never drawn wider than this many lanes are high. */
const WIDEST_BAR_IN_LANES = 14;

/**
 * Lays a track out as a ladder: one rung a phrase from a common left edge, one cell a bar, a strip a layer.
 * Pure: the same analysis and options give the same geometry. Lengths are in the unit of `options.width`.
 * @param analysis the track; bars may be missing altogether, then there are no rungs
 * @param options `width` (over 0), and `height` where pages are wanted
 * @example layoutLadder(analysis, { width: 258, height: 300, metrics: PAPER_METRICS }).pages.length
 */
export function layoutLadder(
  analysis: TrackAnalysis,
  options: LadderOptions & { readonly words?: LadderWords },
): LadderGeometry {
  const metrics = options.metrics ?? SCREEN_METRICS;
  const breaks = patternBreaks(analysis);
  const rows = ladderRows(analysis, breaks);
  const { beatsPerBar } = analysis.metre;
  const lengths = rows.map((row) => rowBars(row, beatsPerBar));
  const columns = Math.max(analysis.phraseBars, ...lengths.map((l) => l.whole));
  const hanging = Math.max(0, ...lengths.map((l) => l.hanging));
  const before = metrics.labelWidth + lettersWidth(metrics);
  const room = options.width - before - metrics.heavy * 1.5;
  const barWidth = Math.min(room / (columns + hanging), metrics.lane * WIDEST_BAR_IN_LANES);
  const leftEdge = before + hanging * barWidth;
  const frame: RungFrame = {
    analysis,
    breaks,
    metrics,
    measure: options.measure ?? measureText,
    words: options.words ?? ENGLISH,
    decimals: options.decimals ?? 1,
    presenceFrom: options.presenceFrom ?? 0.5,
    width: options.width,
    leftEdge,
    barWidth,
  };
  const place = (row: (typeof rows)[number], top: number, onTop: boolean): Rung => placeRung(frame, row, top, onTop);
  const edge = leftEdge + analysis.phraseBars * barWidth;
  const pages: readonly LadderPage[] = paginate(rows, place, { frame, edge, ...heights(options) });
  return {
    width: options.width,
    pages,
    leftEdge,
    barWidth,
    phraseBars: analysis.phraseBars,
    beatsPerBar,
    lanes: LANES,
    unjudged: unjudgedLayers(analysis),
    metrics,
  };
}

function heights(options: LadderOptions): { readonly first: number; readonly next: number } {
  const first = options.height ?? Infinity;
  return { first, next: options.nextHeight ?? first };
}
