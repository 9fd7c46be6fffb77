import stringWidth from 'string-width';
import { printable } from './io.js';

/** A column of a table: its head, where its text stands, and the least it may be cut to when room is short. */
export interface Column {
  readonly head: string;
  readonly align?: 'left' | 'right';
  /** Width to which the column may be cut; without it, it never is. */
  readonly least?: number;
}

const GAP = '  ';

/** How a table looks. */
export interface TableLook {
  readonly width: number;
  readonly bold?: boolean;
  /** Rows of a table that stands above already: this one goes on below it, without a head. */
  readonly below?: readonly (readonly string[])[];
}

/** A table for a terminal of so many columns. The columns that may be cut share the loss, the widest first. */
export function textTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  options: TableLook,
): string {
  const cells = rows.map((row) => row.map(printable));
  const measured = [...(options.below ?? []).map((row) => row.map(printable)), ...cells];
  const widths = columns.map((c, i) =>
    measured.reduce((widest, row) => Math.max(widest, stringWidth(row[i] ?? '')), stringWidth(c.head)),
  );
  const total = () => widths.reduce((sum, w) => sum + w, 0) + GAP.length * (columns.length - 1);
  while (total() > options.width) {
    const spare = columns.map((c, i) => (c.least === undefined ? 0 : widths[i] - c.least));
    const widest = widths.reduce((best, w, i) => (spare[i] > 0 && (best < 0 || w > widths[best]) ? i : best), -1);
    if (widest < 0) break;
    widths[widest]--;
  }
  const line = (texts: readonly string[]) =>
    columns
      .map((c, i) => fit(texts[i] ?? '', widths[i], c.align ?? 'left'))
      .join(GAP)
      .trimEnd();
  if (options.below) return cells.map((row) => `${line(row)}\n`).join('');
  const head = line(columns.map((c) => c.head));
  return [options.bold ? `\u001b[1m${head}\u001b[22m` : head, ...cells.map(line)].map((l) => `${l}\n`).join('');
}

/** A text in a field of so many terminal cells; what does not fit ends in an ellipsis. */
export function fit(text: string, width: number, align: 'left' | 'right' = 'left'): string {
  let kept = text;
  if (stringWidth(text) > width) {
    kept = '';
    for (const { segment } of new Intl.Segmenter().segment(text)) {
      if (stringWidth(kept + segment) > width - 1) break;
      kept += segment;
    }
    kept += '…';
  }
  const space = ' '.repeat(Math.max(width - stringWidth(kept), 0));
  return align === 'left' ? kept + space : space + kept;
}

/** Rows for another program: a line of names, then a line a row, fields parted by tabs. */
export function tabSeparated(names: readonly string[], rows: readonly (readonly string[])[]): string {
  return [names, ...rows].map((row) => `${row.map(printable).join('\t')}\n`).join('');
}
