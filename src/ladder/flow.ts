import type { MeasureText, TextLine } from './geometry.js';

/** A remark under a rung: kept on one line when it fits there. */
export interface Piece {
  readonly text: string;
  readonly bold: boolean;
  readonly role: TextLine['role'];
}

export interface Column {
  readonly x: number;
  /** Baseline of the first line. */
  readonly y: number;
  readonly width: number;
  readonly size: number;
  readonly leading: number;
  readonly measure: MeasureText;
}

const SEPARATOR = ' · ';

/** Sets remarks one after the other, parted by a dot; one that is wider than the column is broken at its spaces. */
export function flowPieces(pieces: readonly Piece[], column: Column): readonly TextLine[] {
  const { measure, size, width } = column;
  const lines: TextLine[] = [];
  let [used, row] = [0, 0];
  const put = (text: string, piece: Piece) => {
    lines.push({
      text,
      x: column.x + used,
      y: column.y + row * column.leading,
      size,
      bold: piece.bold,
      anchor: 'start',
      role: piece.role,
      joins: used > 0,
    });
    used += measure(text, size, piece.bold);
  };
  for (const piece of pieces) {
    const whole = measure(piece.text, size, piece.bold);
    const dot = used === 0 ? 0 : measure(SEPARATOR, size, false);
    if (used > 0 && used + dot + whole <= width) {
      put(SEPARATOR, { text: SEPARATOR, bold: false, role: 'muted' });
      put(piece.text, piece);
      continue;
    }
    if (used > 0) [used, row] = [0, row + 1];
    const parts = breakAtSpaces(piece.text, (text) => measure(text, size, piece.bold) <= width);
    parts.forEach((part, i) => {
      if (i > 0) [used, row] = [0, row + 1];
      put(part, piece);
    });
  }
  return lines;
}

/** Breaks a text at its spaces into lines that fit; a word longer than a line is broken anywhere. */
export function breakAtSpaces(text: string, fits: (line: string) => boolean): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const character of word) {
      if (line !== '' && !fits(line + character)) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}
