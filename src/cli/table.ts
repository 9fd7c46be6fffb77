import stringWidth from 'string-width';
import { printable } from './io.js';

/** A column of a table: its head, where its text stands, and what becomes of it when room is short. */
export interface Column {
  readonly head: string;
  /** A shorter head, for a column that is cut. */
  readonly short?: string;
  readonly align?: 'left' | 'right';
  /** Width to which the column may be cut; without it, it never is. */
  readonly least?: number;
  /** Whether it is left out where the others do not fit without that. */
  readonly optional?: boolean;
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
export function textTable(given: readonly Column[], rows: readonly (readonly string[])[], options: TableLook): string {
  const above = (options.below ?? []).map((row) => row.map(printable));
  const all = rows.map((row) => row.map(printable));
  const content = given.map((_, i) =>
    [...above, ...all].reduce((widest, row) => Math.max(widest, stringWidth(row[i] ?? '')), 0),
  );
  const natural = given.map((c, i) => Math.max(content[i], stringWidth(c.head)));
  const tight = given.map((c, i) => Math.max(content[i], stringWidth(c.short ?? c.head)));
  const sumOf = (of: readonly number[]) => of.reduce((sum, w) => sum + w + GAP.length, -GAP.length);
  const shown = given.map((_, i) => i);
  while (sumOf(shown.map((i) => Math.min(given[i].least ?? tight[i], tight[i]))) > options.width) {
    const left = shown.findIndex((i) => given[i].optional);
    if (left < 0) break;
    shown.splice(left, 1);
  }
  const columns = shown.map((i) => given[i]);
  const isRoomy = sumOf(shown.map((i) => natural[i])) <= options.width;
  const widths = shown.map((i) => (isRoomy ? natural : tight)[i]);
  const cells = all.map((row) => shown.map((i) => row[i] ?? ''));
  while (sumOf(widths) > options.width) {
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
  const head = line(columns.map((c, i) => (stringWidth(c.head) > widths[i] ? (c.short ?? c.head) : c.head)));
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
