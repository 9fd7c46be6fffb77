import {
  layoutLadder,
  PAPER_METRICS,
  scaleMetrics,
  type LadderGeometry,
  type LadderWords,
} from '../../src/ladder/index.js';
import type { TrackAnalysis } from '../../src/index.js';
import type { Style } from '../theme/index.js';
import type { Typesetter } from './typesetter.js';

/** A ladder in columns side by side: column `c` of page `p` shows page `p · columns + c` of the geometry. */
export interface LadderColumns {
  readonly geometry: LadderGeometry;
  readonly columns: number;
  /** Distance of the left edges of two columns. */
  readonly pitch: number;
  /** Pages of paper that it takes. */
  readonly pages: number;
}

export interface ColumnsRoom {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  /** Most columns side by side. */
  readonly most: number;
  /** The count over the bars; default true. */
  readonly count?: boolean;
  /** Instead of the style's own. */
  readonly words?: LadderWords;
}

/** From roomy to dense, in points at scale 1; the count over the bars keeps to the smallest type. */
const DENSITIES = [
  { lane: 5.2, gap: 7 },
  { lane: 4.6, gap: 5 },
  { lane: 4, gap: 3.6 },
  { lane: 3.4, gap: 2.6 },
] as const;

/** Between two columns, as a share of the width of the labels. */
const GUTTER = 0.3;
/** A bar must be wide enough for its number in the count, in sizes of it. */
const NARROWEST_BAR = 0.72;

/** The ladder with the count over its bars, in as few pages as can be, then in few columns, then roomy. */
export function ladderInColumns(
  analysis: TrackAnalysis,
  room: ColumnsRoom,
  type: Typesetter,
  style: Style,
): LadderColumns {
  const gutter = PAPER_METRICS.labelWidth * GUTTER * room.scale;
  const counted = room.count ?? true;
  const tried: LadderColumns[] = [];
  for (let columns = 1; columns <= room.most; columns++) {
    const width = (room.width - (columns - 1) * gutter) / columns;
    for (const density of DENSITIES) {
      const metrics = scaleMetrics(
        { ...PAPER_METRICS, ...density, count: counted ? PAPER_METRICS.text : 0 },
        room.scale,
      );
      const geometry = layoutLadder(analysis, {
        ...{ width, height: room.height, metrics },
        measure: type.measure,
        words: room.words ?? style.ladder,
      });
      const pages = Math.max(1, Math.ceil(geometry.pages.length / columns));
      const legible = !counted || geometry.barWidth >= PAPER_METRICS.text * room.scale * NARROWEST_BAR;
      if (legible || tried.length === 0) tried.push({ geometry, columns, pitch: width + gutter, pages });
      if (pages === 1 && legible) return tried.at(-1)!;
    }
  }
  // The sort is stable: among equals the fewest columns and the roomiest stay first.
  return tried.sort((a, b) => a.pages - b.pages)[0];
}
