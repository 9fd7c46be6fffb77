import { breakAtSpaces } from '../../src/ladder/index.js';
import { readAsWhole } from './direction.js';

/** Text set to fit a width: its lines and their size, and whether something had to be left out. */
export interface FittedText {
  readonly lines: readonly string[];
  readonly size: number;
  readonly cut: boolean;
}

export interface FitOptions {
  readonly width: number;
  /** Size wanted and the least that is allowed. */
  readonly size: number;
  readonly least: number;
  readonly maxLines: number;
  readonly measure: (text: string, size: number) => number;
}

/** Sizes are tried in steps of half a point. */
const STEP = 0.5;

/**
 * Fits a text: first on one line down to the least size, then on more lines; an ellipsis is the last resort and is
 * reported as `cut`.
 */
export function fitText(text: string, options: FitOptions): FittedText {
  const { width, size: wanted, least, maxLines, measure } = options;
  for (let size = wanted; size >= least; size -= STEP) {
    if (measure(text, size) <= width) return { lines: [text], size, cut: false };
  }
  const lines = breakAtSpaces(text, (line) => measure(line, least) <= width);
  if (lines.length <= maxLines) return { lines: readAsWhole(text, lines), size: least, cut: false };
  const kept = lines.slice(0, maxLines);
  let last = kept[maxLines - 1];
  while (last !== '' && measure(`${last}…`, least) > width) last = [...last].slice(0, -1).join('').trimEnd();
  return { lines: readAsWhole(text, [...kept.slice(0, -1), `${last}…`]), size: least, cut: true };
}
