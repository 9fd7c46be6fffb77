import type { LadderPage, Rung, TextLine } from './geometry.js';
import type { Row } from './rows.js';
import type { RungFrame } from './frame.js';

export interface PageOptions {
  readonly frame: RungFrame;
  /** x of the ruled edge. */
  readonly edge: number;
  /** Heights of the first page and of the others. */
  readonly first: number;
  readonly next: number;
}

/** Fills pages with rungs from top to bottom; a rung is never parted, and a page holds at least one. */
export function paginate(
  rows: readonly Row[],
  place: (row: Row, top: number, onTop: boolean) => Rung,
  options: PageOptions,
): readonly LadderPage[] {
  const top = rulerHeight(options.frame);
  const pages: Rung[][] = [];
  let limit = options.first;
  for (const row of rows) {
    const page = pages.at(-1);
    const last = page?.at(-1);
    if (page !== undefined && last !== undefined) {
      const rung = place(row, bottomOf(last) + gapBefore(row, options.frame), false);
      if (bottomOf(rung) <= limit) {
        page.push(rung);
        continue;
      }
      limit = options.next;
    }
    pages.push([place(row, top, true)]);
  }
  return pages.map((rungs) => finish(rungs, options));
}

const bottomOf = (rung: Rung): number => rung.block.y + rung.block.height;

function gapBefore(row: Row, { metrics }: RungFrame): number {
  if (row.part > 1) return metrics.gap * 0.5;
  return row.sectionStart ? metrics.gap * 1.5 : metrics.gap;
}

/** Where the count stands over the bars, it takes the place of the ruler. */
const counts = ({ metrics }: RungFrame): boolean => (metrics.count ?? 0) > 0;
const rulerHeight = (frame: RungFrame): number => (counts(frame) ? 0 : frame.metrics.text + frame.metrics.gap * 0.5);

function finish(rungs: readonly Rung[], options: PageOptions): LadderPage {
  const { edge, frame } = options;
  const height = bottomOf(rungs.at(-1)!);
  const rows = rungs.map((r) => r.row);
  return {
    rungs,
    height,
    ruledEdge: { x: edge, segments: edgeSegments(rungs, edge, frame) },
    ruler: counts(frame) ? [] : ruler(frame, rows[0].y - frame.metrics.gap * 0.5),
  };
}

/** The ruled edge runs from the first row to the last and lets remarks pass that reach over it. */
function edgeSegments(rungs: readonly Rung[], x: number, { metrics }: RungFrame) {
  const segments: { y1: number; y2: number }[] = [];
  const over = metrics.gap * 0.5;
  let start = rungs[0].row.y - over;
  rungs.forEach((rung, i) => {
    const below = rung.row.y + rung.row.height + over;
    const crossed = rung.texts.some((t) => t.y > below && t.x < x && rung.textRight > x - metrics.text * 0.4);
    const next = rungs[i + 1];
    if (next === undefined) return void segments.push({ y1: start, y2: below });
    if (!crossed) return;
    segments.push({ y1: start, y2: below });
    start = next.row.y - over;
  });
  return segments;
}

/** Numbers of the bars of the phrase at which a group starts, and of the last one. */
function ruler(frame: RungFrame, y: number): readonly TextLine[] {
  const { phraseBars } = frame.analysis;
  const numbers = [...Array(phraseBars).keys()].map((i) => i + 1).filter((n) => n % 4 === 1 || n === phraseBars);
  return numbers.map((n) => ({
    text: `${n}`,
    x: frame.leftEdge + (n - 0.5) * frame.barWidth,
    y,
    size: frame.metrics.text,
    bold: false,
    anchor: 'middle',
    role: 'muted',
  }));
}
