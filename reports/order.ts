import { BarwiseError, wishesKept, type OrderWishes, type RunningOrder, type TrackAnalysis } from '../src/index.js';
import type { Canvas } from './layout/canvas.js';
import { openDocument } from './layout/document.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { SHEET_PAPERS } from './layout/paper.js';
import { drawOrder } from './order/page.js';
import { wordsFor } from './order/words.js';
import { styleOf } from './theme/index.js';
import { addTransitions, type TransitionOptions } from './transition.js';

/** How a running order is printed. @experimental */
export interface OrderPrintOptions extends TransitionOptions {
  /** The wishes that the order was made under; it is told which are kept. */
  readonly wishes?: OrderWishes;
}

/**
 * Prints a running order: an overview with curves of measured loudness and density over the evening, the wishes and what became
 * of them, and the list; then a transition sheet for every step that has a plan.
 * @experimental
 * @param tracks the list that the order was made of
 * @param target name of a file, or a stream, which is ended
 * @throws BarwiseError `bad-option` without tracks, `missing-package`, `cannot-write`, `aborted`
 * @example await printOrder(orderTracks(tracks), tracks, 'order.pdf')
 */
export async function printOrder(
  order: RunningOrder,
  tracks: readonly TrackAnalysis[],
  target: PieceTarget,
  options: OrderPrintOptions = {},
): Promise<void> {
  if (order.tracks.length === 0) throw new BarwiseError('bad-option', 'There is no track to print: give at least one.');
  const style = styleOf(options.theme, options.language);
  await checkTarget(target, options.overwrite ?? false);
  const paper = SHEET_PAPERS[options.paper ?? 'A4'];
  const { title } = wordsFor(style);
  const piece = await openDocument({ title, language: style.words.tag });
  piece.addPage(paper);
  piece.doc.outline.addItem(title);
  const section = piece.surface.open(piece.root, 'Sect', title);
  const canvas: Canvas = { surface: piece.surface, style, section, x: 0, y: 0 };
  const wishes = wishesKept(order, options.wishes ?? {});
  drawOrder(canvas, { order, tracks, wishes }, paper, () => {
    piece.addPage(paper);
    return canvas;
  });
  piece.surface.close(section);
  const sheets = order.steps.flatMap(({ match }, i) =>
    match === null || match.plans.length === 0
      ? []
      : [{ a: tracks[order.tracks[i].index], b: tracks[order.tracks[i + 1].index], match, plan: match.plans[0] }],
  );
  addTransitions(piece, sheets, style, paper, options);
  await deliver(await piece.finish(), target);
}
