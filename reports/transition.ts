import { BarwiseError, throwIfAborted, type RunOptions } from '../src/index.js';
import type { Language } from '../src/wording/index.js';
import { paintPaper } from './layout/canvas.js';
import { openDocument, type PieceDocument } from './layout/document.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { SHEET_PAPERS, type Paper, type SheetPaper } from './layout/paper.js';
import { styleOf, type Style, type ThemeData } from './theme/index.js';
import { drawTransition, nameOf } from './transition/page.js';
import type { Transition } from './transition/rows.js';

/** How transition sheets are printed. @experimental */
export interface TransitionOptions extends RunOptions {
  /** Default `A4`. */
  readonly paper?: SheetPaper;
  readonly theme?: ThemeData;
  readonly language?: Language;
  /** Replaces the file even if it is not one of ours, unchanged; default false. */
  readonly overwrite?: boolean;
}

/**
 * Prints a transition sheet for each plan into one PDF, a page each: the start in large, both ladders on one count, what is
 * done on which one, bars and time left.
 * @experimental
 * @param transitions at least one: both analyses, their match and one of its plans
 * @param target name of a file, or a stream, which is ended
 * @throws BarwiseError `bad-option` without plans, `missing-package`, `cannot-write`, `aborted`
 * @example await printTransitions([{ a, b, match, plan: match.plans[0] }], 'sheet.pdf')
 */
export async function printTransitions(
  transitions: readonly Transition[],
  target: PieceTarget,
  options: TransitionOptions = {},
): Promise<{ readonly pages: number }> {
  if (transitions.length === 0) {
    throw new BarwiseError('bad-option', 'There is no plan to print: give at least one.');
  }
  const style = styleOf(options.theme, options.language);
  await checkTarget(target, options.overwrite ?? false);
  const paper = SHEET_PAPERS[options.paper ?? 'A4'];
  const title = transitions.slice(0, 2).map((transition) => titleOf(transition, style));
  const piece = await openDocument({ title: title.join('; '), language: style.words.tag });
  addTransitions(piece, transitions, style, paper, options);
  await deliver(await piece.finish(), target);
  return { pages: transitions.length };
}

/** Adds a page for each plan to a document. */
export function addTransitions(
  piece: PieceDocument,
  transitions: readonly Transition[],
  style: Style,
  paper: Paper,
  options: RunOptions,
): void {
  for (const [i, transition] of transitions.entries()) {
    throwIfAborted(options.signal);
    piece.addPage(paper);
    const title = titleOf(transition, style);
    piece.doc.outline.addItem(title);
    const { surface } = piece;
    const section = surface.open(piece.root, 'Sect', title);
    const canvas = { surface, style, section, x: 0, y: 0 };
    paintPaper(canvas, paper, 0);
    drawTransition(canvas, transition, paper);
    surface.close(section);
    options.onProgress?.({ stage: 'sheets', done: (i + 1) / transitions.length });
  }
}

const titleOf = ({ a, b }: Transition, style: Style): string => `${nameOf(a, style)} + ${nameOf(b, style)}`;
