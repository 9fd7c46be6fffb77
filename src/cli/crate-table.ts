import { hasStyle, type Io } from './io.js';
import { CRATE_FIELDS, type CrateRow } from './rows.js';
import { tabSeparated, textTable, type Column } from './table.js';

/** On a terminal. */
const COLUMNS: readonly (Column & { readonly of: keyof CrateRow })[] = [
  { of: 'title', head: 'Track', least: 14 },
  { of: 'bpm', head: 'BPM', align: 'right' },
  { of: 'key', head: 'Key' },
  { of: 'length', head: 'Length', align: 'right' },
  { of: 'lufs', head: 'LUFS', align: 'right', optional: true },
  { of: 'phrases', head: 'Phrases (bars)', short: 'Phrases', least: 9 },
  { of: 'sections', head: 'Sections (bars)', short: 'Sections', least: 10 },
  { of: 'irregularities', head: 'Odd', align: 'right' },
  { of: 'doubt', head: 'Doubt', least: 10 },
];
const USUAL_WIDTH = 100;

/**
 * A crate as a table for a terminal, or as lines with tabs for another program.
 * @param below rows that were printed before, for more of them without a head
 */
export function crateTable(rows: readonly CrateRow[], io: Io, below?: readonly CrateRow[]): string {
  if (io.stdout.isTTY !== true) {
    const text = tabSeparated(CRATE_FIELDS, cells(rows, CRATE_FIELDS));
    return below ? text.slice(text.indexOf('\n') + 1) : text;
  }
  const fields = COLUMNS.map((c) => c.of);
  return textTable(COLUMNS, cells(rows, fields), {
    width: io.stdout.columns ?? USUAL_WIDTH,
    bold: hasStyle(io.stdout, io.env),
    ...(below ? { below: cells(below, fields) } : {}),
  });
}

function cells(rows: readonly CrateRow[], fields: readonly (keyof CrateRow)[]): string[][] {
  return rows.map((row) => fields.map((f) => row[f]));
}
