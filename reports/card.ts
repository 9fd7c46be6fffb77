import { BarwiseError, type RunOptions, type TrackAnalysis } from '../src/index.js';
import { PAPER_THEME, type LadderTheme } from '../src/ladder/index.js';
import { drawCards, drawSheets } from './card/draw.js';
import type { PrintWarning } from './card/warnings.js';
import { cardName } from './card/words.js';
import { openDocument } from './layout/document.js';
import { printable } from './layout/fonts.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { CARD_PAPERS } from './layout/paper.js';

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
  const { onProgress, signal, theme = PAPER_THEME } = options;
  const job = { piece, analyses, paper, theme, onProgress, signal };
  const drawn = await (format === 'A4-sheet' ? drawSheets(job) : drawCards(job));
  await deliver(await piece.finish(), target);
  return drawn;
}
