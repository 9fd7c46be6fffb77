import { isDoubtful, rowChanges, rowRemarks } from './captions.js';
import { openCells, rowCells, type RowPlace } from './cells.js';
import { flowPieces } from './flow.js';
import type { RungFrame } from './frame.js';
import { labelLines } from './labels.js';
import type { BarCell, LadderMetrics, Rung, RungMark, TextLine } from './geometry.js';
import { LANES, rowLetters, rowStrips } from './lanes.js';
import { parameter } from './pattern.js';
import type { Row } from './rows.js';

/** Gives a row its place below `top`; `onTop` says that it is the first of its page and names its section again. */
export function placeRung(frame: RungFrame, row: Row, top: number, onTop: boolean): Rung {
  const { analysis, breaks, metrics } = frame;
  const count = metrics.count ?? 0;
  const rowTop = top + count * 1.1 + (row.dropLands ? metrics.lane * 1.2 : 0);
  const height = LANES.length * metrics.lane;
  const place: RowPlace = { left: frame.leftEdge, top: rowTop, height, barWidth: frame.barWidth };
  const cells = rowCells(analysis, row, breaks, place);
  const end = cells.length === 0 ? frame.leftEdge : cells.at(-1)!.x + cells.at(-1)!.width;
  const open = openCells(row, end, place);
  const strips = rowStrips(analysis, row, cells, metrics.lane, frame.presenceFrom);
  const marks = rungMarks(frame, cells, rowTop + height);
  const startDoubtful = row.phrase !== null && row.part === 1 && isDoubtful(row.phrase.confidence);
  const functionDoubtful = row.section !== null && isDoubtful(row.section.confidence);
  const label = labelLines(frame, row, { top: rowTop, onTop, startDoubtful, functionDoubtful });
  const remarks = flowPieces(rowRemarks(analysis, row, breaks, frame.words), {
    x: frame.leftEdge,
    y: rowTop + height + (marks.length > 0 ? metrics.lane * 0.75 : 0) + metrics.text * 1.05,
    width: frame.width - frame.leftEdge,
    size: metrics.text,
    leading: metrics.leading,
    measure: frame.measure,
  });
  const texts = [...label, ...remarks];
  const bottom = Math.max(rowTop + height + metrics.gap * 0.25, ...texts.map((t) => t.y + t.size * 0.25));
  const bars = [...row.hanging, ...row.bars].map((b) => b.bar);
  const broken = row.bars.some((b) => breaks.broken.has(b.bar.number));
  return {
    phrase: row.phrase?.number ?? 0,
    part: row.part,
    parts: row.parts,
    function: row.section?.function ?? null,
    sectionStart: row.sectionStart,
    dropLands: row.dropLands,
    firstBar: bars[0].number,
    lastBar: bars.at(-1)!.number,
    start: (row.bars[0] ?? row.hanging[0]).bar.start,
    block: { x: 0, y: top, width: frame.width, height: bottom - top },
    row: { x: frame.leftEdge, y: rowTop, width: end - frame.leftEdge, height },
    cells,
    strips,
    letters: rowLetters(
      strips,
      Math.min(frame.leftEdge, cells[0].x) - metrics.lane * 0.8,
      rowTop,
      metrics,
      frame.words.letter,
    ),
    open,
    brokenEnd: broken ? end : null,
    marks,
    changes: rowChanges(analysis, row),
    startDoubtful,
    functionDoubtful,
    texts,
    counts: count > 0 ? countLines(cells, count, metrics) : [],
    textRight: Math.max(0, ...remarks.map((t) => t.x + frame.measure(t.text, t.size, t.bold))),
  };
}

/** What one says on the first beat of each bar: its number in the group. */
function countLines(cells: readonly BarCell[], size: number, { lane }: LadderMetrics): readonly TextLine[] {
  return cells
    .filter((c) => !c.hanging)
    .map((c) => ({
      text: `${c.groupBar}`,
      x: c.x + c.width / 2,
      y: c.y - lane * 0.75,
      size,
      bold: c.groupBar === 1,
      anchor: 'middle',
      role: c.groupBar === 1 ? 'ink' : 'muted',
    }));
}

/** Places under the cells at which something happens that the cells alone do not show. */
function rungMarks(frame: RungFrame, cells: readonly BarCell[], bottom: number): readonly RungMark[] {
  const y = bottom + frame.metrics.lane * 0.25;
  return frame.analysis.irregularities.flatMap((irregularity): RungMark[] => {
    const { kind, bar } = irregularity;
    const from = cells.find((c) => c.bar === bar);
    if (kind === 'added-beats' || kind === 'dropped-beats' || kind === 'pick-up' || kind === 'tempo-change') {
      return from === undefined ? [] : [{ kind, bar, x1: from.x, x2: from.x, y }];
    }
    if (kind !== 'half-time') return [];
    const endBar = parameter(irregularity, 'endBar') ?? Infinity;
    const range = cells.filter((c) => c.bar >= bar && c.bar <= endBar);
    const last = range.at(-1);
    return last === undefined ? [] : [{ kind, bar, x1: range[0].x, x2: last.x + last.width, y }];
  });
}
