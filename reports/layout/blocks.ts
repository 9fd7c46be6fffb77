import { breakAtSpaces } from '../../src/ladder/index.js';
import { readAsWhole } from './direction.js';
import { setLine, tagged, type Canvas } from './canvas.js';
import { LEADING, TYPE } from './type.js';

/** What running text is made of. */
export type Block =
  | {
      readonly kind: 'heading';
      readonly text: string;
      /** 1 where it heads the whole document; default 2. */ readonly level?: 1;
    }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'table'; readonly columns: readonly TableColumn[]; readonly rows: readonly (readonly string[])[] };

export interface TableColumn {
  readonly name: string;
  /** Share of the width. */
  readonly share: number;
  readonly anchor: 'start' | 'end';
}

/** A piece of a block with its height: a line is never parted. */
export interface BlockLine {
  readonly height: number;
  /** Must not be the last on a page. */
  readonly keep: boolean;
  /** Lines of the same element on a page are tagged together. */
  readonly element: number;
  readonly tag: 'H1' | 'H2' | 'P' | 'Table';
  readonly cells: readonly { readonly text: string; readonly x: number; readonly anchor: 'start' | 'end' }[];
  readonly head: boolean;
  readonly size: number;
  readonly bold: boolean;
}

type Measure = (text: string, size: number, bold: boolean) => number;

/** Breaks blocks into lines for a column of a width; no word is ever left out. */
export function blockLines(
  blocks: readonly Block[],
  width: number,
  scale: number,
  measure: Measure,
): readonly BlockLine[] {
  const lines: BlockLine[] = [];
  const body = TYPE.body * scale;
  blocks.forEach((block, element) => {
    if (block.kind === 'table') return void lines.push(...tableLines(block, element, width, body));
    const heading = block.kind === 'heading';
    const size = heading ? TYPE.heading * scale : body;
    const broken = breakAtSpaces(tieUnits(block.text), (text) => measure(text, size, heading) <= width);
    readAsWhole(block.text, broken).forEach((text, i) => {
      const before = i > 0 ? 0 : heading ? size * 0.8 : size * 0.2;
      lines.push({
        height: size * LEADING + before,
        keep: heading || (i === 0 && broken.length > 1),
        element,
        tag: block.kind === 'paragraph' ? 'P' : block.level === 1 ? 'H1' : 'H2',
        cells: [{ text, x: 0, anchor: 'start' }],
        head: false,
        size,
        bold: heading,
      });
    });
  });
  return lines;
}

/** A number and its unit stay on one line. */
const tieUnits = (text: string): string => text.replace(/(\d) (?=%|LUFS|LU|dBTP|kHz|BPM)/g, '$1\u00a0');

function tableLines(
  block: Extract<Block, { kind: 'table' }>,
  element: number,
  width: number,
  size: number,
): readonly BlockLine[] {
  let left = 0;
  const places = block.columns.map((column) => {
    const start = left;
    left += column.share * width;
    return { x: column.anchor === 'start' ? start : left - size * 0.5, anchor: column.anchor };
  });
  const line = (texts: readonly string[], head: boolean): BlockLine => ({
    height: size * LEADING * 1.08,
    keep: head,
    element,
    tag: 'Table',
    cells: texts.map((text, i) => ({ text, ...places[i] })),
    head,
    size: head ? size * (TYPE.small / TYPE.body) : size,
    bold: false,
  });
  return [
    line(
      block.columns.map((c) => c.name),
      true,
    ),
    ...block.rows.map((row) => line(row, false)),
  ];
}

/** How many lines from `from` on fit into a height; lines that must be kept with the next are not left alone. */
export function linesThatFit(lines: readonly BlockLine[], from: number, height: number): number {
  let [used, count] = [0, 0];
  while (from + count < lines.length && used + lines[from + count].height <= height) {
    used += lines[from + count].height;
    count++;
  }
  if (from + count === lines.length) return count;
  while (count > 0 && lines[from + count - 1].keep) count--;
  return count;
}

/**
 * The lines of a page from `from` on, at least one, and where the next page goes on. A table that was parted has its
 * head again.
 */
export function pageOfLines(
  lines: readonly BlockLine[],
  from: number,
  height: number,
): { readonly lines: readonly BlockLine[]; readonly next: number } {
  const first = lines[from];
  const parted = first.tag === 'Table' && !first.head;
  const head = parted ? lines.filter((l) => l.head && l.element === first.element) : [];
  const count = Math.max(1, linesThatFit(lines, from, height - linesHeight(head)));
  return { lines: [...head, ...lines.slice(from, from + count)], next: from + count };
}

/** Height of lines set one under the other. */
export const linesHeight = (lines: readonly BlockLine[]): number => lines.reduce((sum, l) => sum + l.height, 0);

/** Sets lines from `y` downwards and gives the height used. */
export function drawLines(canvas: Canvas, lines: readonly BlockLine[], x: number, top: number): number {
  let y = top;
  for (let i = 0; i < lines.length;) {
    let end = i;
    while (end < lines.length && lines[end].element === lines[i].element) end++;
    const group = lines.slice(i, end);
    if (group[0].tag === 'Table') {
      drawTable(canvas, group, x, y);
    } else {
      const from = y;
      tagged(canvas, group[0].tag, {}, () => {
        let at = from;
        for (const line of group) drawCells(canvas, line, x, (at += line.height));
      });
    }
    y += group.reduce((sum, line) => sum + line.height, 0);
    i = end;
  }
  return y - top;
}

function drawCells(canvas: Canvas, line: BlockLine, x: number, bottom: number): void {
  for (const cell of line.cells) drawCell(canvas, line, cell, x, bottom);
}

function drawCell(canvas: Canvas, line: BlockLine, cell: BlockLine['cells'][number], x: number, bottom: number): void {
  const { size, bold, head } = line;
  setLine(canvas, cell.text, x + cell.x, bottom - size * 0.28, {
    size,
    bold,
    anchor: cell.anchor,
    ink: head ? 'muted' : 'ink',
  });
}

function drawTable(canvas: Canvas, rows: readonly BlockLine[], x: number, top: number): void {
  const { surface } = canvas;
  const table = surface.open(canvas.section, 'Table');
  let y = top;
  for (const row of rows) {
    y += row.height;
    const bottom = y;
    const tr = surface.open(table, 'TR');
    row.cells.forEach((cell, i) => {
      const draw = () => drawCell(canvas, row, cell, x, bottom);
      if (row.head) surface.element(tr, 'TH', { scope: 'Column' }, draw);
      else if (i === 0) surface.element(tr, 'TH', { scope: 'Row' }, draw);
      else surface.element(tr, 'TD', {}, draw);
    });
    surface.close(tr);
  }
  surface.close(table);
}
