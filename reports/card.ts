import { BarwiseError, throwIfAborted, type RunOptions, type TrackAnalysis } from '../src/index.js';
import { PAPER_THEME, type LadderTheme } from '../src/ladder/index.js';
import { cardName } from './card/words.js';
import { planCard, type CardPlan } from './card/plan.js';
import type { PrintWarning } from './card/warnings.js';
import type { Canvas } from './layout/canvas.js';
import { openDocument, type PieceDocument } from './layout/document.js';
import { printable } from './layout/fonts.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { A4_SHEET, CARD_PAPERS, cardPlaces } from './layout/paper.js';
import { drawCropMarks, imposeCards } from './layout/sheet.js';

/** What cards can be printed on: single cards, or four A6 cards to a sheet of A4 with marks to cut along. */
export const CARD_FORMATS = ['A6', 'A5', 'A4-sheet'] as const;
export type CardFormat = (typeof CARD_FORMATS)[number];

export interface CardOptions extends RunOptions {
  /** Default `A6`. */
  readonly paper?: CardFormat;
  /** Colours; default ink on white. */
  readonly theme?: LadderTheme;
  /** Replaces the file even if it is not one of ours, unchanged; default false. */
  readonly overwrite?: boolean;
}

export interface PrintResult {
  /** Pages of the PDF. */
  readonly pages: number;
  readonly warnings: readonly PrintWarning[];
}

/**
 * Prints a structure card for each track into one PDF: vector, tagged, fonts embedded, the same bytes for the same
 * tracks. A track that does not fit on one card goes on behind it.
 * @param analyses at least one track
 * @param target name of a file, or a stream, which is ended
 * @throws BarwiseError `bad-option` without tracks or for an unknown paper, `missing-package` where pdfkit or fontkit is
 * not installed, `cannot-write` where the file is not ours or cannot be made, `aborted`
 * @example await printCards([analysis], 'cards.pdf', { paper: 'A6' })
 */
export async function printCards(
  analyses: readonly TrackAnalysis[],
  target: PieceTarget,
  options: CardOptions = {},
): Promise<PrintResult> {
  const format = options.paper ?? 'A6';
  if (!CARD_FORMATS.includes(format)) {
    throw new BarwiseError(
      'bad-option',
      `There is no paper "${String(format)}" for cards: use ${CARD_FORMATS.join(', ')}.`,
    );
  }
  if (analyses.length === 0)
    throw new BarwiseError('bad-option', 'There is no track to print a card of: give at least one.');
  await checkTarget(target, options.overwrite ?? false);
  const names = analyses.map((a) => printable(cardName(a)));
  const title = names.length === 1 ? `Structure card: ${names[0]}` : `Structure cards: ${names.length} tracks`;
  const piece = await openDocument({ title, language: 'en' });
  const paper = CARD_PAPERS[format === 'A5' ? 'A5' : 'A6'];
  const warnings: PrintWarning[] = [];
  const plans: CardPlan[] = [];
  for (const analysis of analyses) {
    throwIfAborted(options.signal);
    const plan = planCard(analysis, paper, piece.type);
    plans.push(plan);
    warnings.push(...plan.warnings);
  }
  const theme = options.theme ?? PAPER_THEME;
  const pages =
    format === 'A4-sheet' ? drawSheets(piece, plans, theme) : drawCards(piece, plans, theme, paper, options);
  await deliver(await piece.finish(), target);
  return { pages, warnings };
}

/** One page a card page, in order, with a bookmark for each card. */
function drawCards(
  piece: PieceDocument,
  plans: readonly CardPlan[],
  theme: LadderTheme,
  paper: { readonly width: number; readonly height: number },
  options: RunOptions,
): number {
  const { doc, root } = piece;
  let pages = 0;
  plans.forEach((plan, i) => {
    throwIfAborted(options.signal);
    const section = doc.struct('Sect', { title: plan.name });
    root.add(section);
    plan.pages.forEach((draw, page) => {
      doc.addPage({ size: [paper.width, paper.height], margin: 0 });
      pages++;
      if (page === 0) doc.outline.addItem(plan.name);
      draw({ piece, theme, section, x: 0, y: 0 });
    });
    section.end();
    options.onProgress?.({ stage: 'cards', done: (i + 1) / plans.length });
  });
  return pages;
}

/** Four cards to a sheet, backs behind their fronts. */
function drawSheets(piece: PieceDocument, plans: readonly CardPlan[], theme: LadderTheme): number {
  const { doc, root } = piece;
  const sections = plans.map((plan) => {
    const section = doc.struct('Sect', { title: plan.name });
    root.add(section);
    return section;
  });
  const places = cardPlaces();
  const sides = imposeCards(plans.map((p) => p.pages.length));
  for (const side of sides) {
    doc.addPage({ size: [A4_SHEET.width, A4_SHEET.height], margin: 0 });
    side.places.forEach((what, place) => {
      if (what === null) return;
      const canvas: Canvas = { piece, theme, section: sections[what.card], ...places[place] };
      if (what.page === 0) doc.outline.addItem(plans[what.card].name);
      plans[what.card].pages[what.page](canvas);
    });
    drawCropMarks({ piece, theme, section: root, x: 0, y: 0 });
  }
  for (const section of sections) section.end();
  return sides.length;
}
