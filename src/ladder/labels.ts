import type { TextLine } from './geometry.js';
import type { Row } from './rows.js';
import type { RungFrame } from './frame.js';

/** What a rung's label knows about its row. */
export interface LabelOptions {
  readonly top: number;
  /** First of its page: it names its section again. */
  readonly onTop: boolean;
  readonly startDoubtful: boolean;
  readonly functionDoubtful: boolean;
}

/** Function over bar and time, left of the rung; the times end flush. */
export function labelLines(frame: RungFrame, row: Row, options: LabelOptions): readonly TextLine[] {
  const { metrics, measure, words } = frame;
  const right = metrics.labelWidth - metrics.text * 0.65;
  const lines: TextLine[] = [];
  let y = options.top + metrics.text * 0.75;
  if (row.section !== null && (row.sectionStart || options.onTop)) {
    const text = words.function(row.section.function) + (options.functionDoubtful ? '?' : '');
    const bold = row.sectionStart;
    const fits = bold && measure(text, metrics.label, bold) <= metrics.labelWidth;
    const size = fits ? metrics.label : metrics.text;
    y = options.top + metrics.label * 0.75;
    lines.push({ text, x: 0, y, size, bold, anchor: 'start', role: bold ? 'ink' : 'muted' });
    y += metrics.leading * 1.02;
  }
  const { bar } = row.bars[0] ?? row.hanging[0];
  const number = words.bar(bar.number, options.startDoubtful);
  const time = words.time(bar.start, frame.decimals);
  const small = { size: metrics.text, bold: false } as const;
  lines.push({ ...small, text: number, x: 0, y, anchor: 'start', role: row.part === 1 ? 'ink' : 'muted' });
  const needed = measure(`${number} `, small.size, false) + measure(time, small.size, false);
  if (needed > right)
    lines.push({ ...small, text: time, x: 0, y: y + metrics.leading, anchor: 'start', role: 'muted' });
  else lines.push({ ...small, text: time, x: right, y, anchor: 'end', role: 'muted' });
  return lines;
}
