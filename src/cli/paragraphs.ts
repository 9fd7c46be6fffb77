import stringWidth from 'string-width';

/**
 * A paragraph for a terminal, broken at spaces and set in by so many columns.
 * @param mark stands before the first line, inside the indent: "1."
 */
export function wrapped(text: string, width: number, indent = 0, mark = ''): string {
  const margin = ' '.repeat(indent);
  return broken(text, Math.max(width - indent, 20))
    .map((line, i) => `${i === 0 && mark !== '' ? mark.padEnd(indent) : margin}${line}\n`)
    .join('');
}

/** Spaces at which a line may end: not those between a number and its unit. */
const BREAKS = / (?!(?:%|dB|BPM|ms|s|LU|LUFS|min)(?![\p{L}\p{N}]))/u;

/** Lines of at most so many columns; a word that is longer stands alone. */
function broken(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(BREAKS)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && stringWidth(longer) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

/** How a table whose last column is broken into lines looks. */
export interface WrappedTable {
  readonly width: number;
  /** Columns that are set to the right. */
  readonly right: readonly number[];
  readonly bold: boolean;
  /** Rows before which a line stays empty. */
  readonly gapBefore: readonly boolean[];
}

const GAP = '  ';
const LEAST_LAST = 16;

/** A table that nothing is cut from: the last column is broken into lines. */
export function wrappedTable(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  look: WrappedTable,
): string {
  const last = head.length - 1;
  const widths = head.map((name, c) => Math.max(...[name, ...rows.map((r) => r[c])].map((t) => stringWidth(t))));
  const before = widths.slice(0, last).reduce((sum, w) => sum + w + GAP.length, 0);
  const room = Math.max(look.width - before, LEAST_LAST);
  const fill = (text: string, c: number) => {
    const space = ' '.repeat(Math.max(widths[c] - stringWidth(text), 0));
    return look.right.includes(c) ? space + text : text + space;
  };
  const line = (cells: readonly string[]) =>
    broken(cells[last], room)
      .map((text, i) =>
        (i === 0 ? `${cells.slice(0, last).map(fill).join(GAP)}${GAP}${text}` : ' '.repeat(before) + text).trimEnd(),
      )
      .join('\n');
  const top = line(head);
  return [
    look.bold ? `\u001b[1m${top}\u001b[22m` : top,
    ...rows.map((row, i) => (look.gapBefore[i] && i > 0 ? `\n${line(row)}` : line(row))),
  ]
    .map((l) => `${l}\n`)
    .join('');
}
