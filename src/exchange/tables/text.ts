import { stringify } from 'csv-stringify/sync';
import { printable } from '../../units/index.js';
import type { Row } from './rows.js';

/**
 * Rows as CSV (RFC 4180) with a line of names; what a spreadsheet would take for a formula is led by an apostrophe.
 * @public
 */
export function toCsv(rows: readonly Row[]): string {
  if (rows.length === 0) return '';
  const columns = Object.keys(rows[0]);
  const cells = rows.map((row) => columns.map((c) => (typeof row[c] === 'string' ? plainText(row[c]) : row[c])));
  return stringify(cells, { header: true, columns, record_delimiter: '\r\n', cast: { boolean: (b) => `${b}` } });
}

/** Rows as JSON Lines: one object a line. @public */
export function toJsonLines(rows: readonly Row[]): string {
  return rows.map((row) => `${JSON.stringify(row)}\n`).join('');
}

/** A text that others wrote, as a spreadsheet shows it without running it and a terminal without obeying it. @public */
export function plainText(text: string): string {
  const clean = printable(text);
  return /^\s*[=+\-@|%＝＋－＠]/u.test(clean) ? `'${clean}` : clean;
}
