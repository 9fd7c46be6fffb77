import { BarwiseError, type RunOptions, type TrackAnalysis } from '../src/index.js';
import type { Language } from '../src/wording/index.js';
import { drawIndex, INDEX_ORDERS, inOrder, type IndexOrder } from './card/crate-index.js';
import { drawCards, drawSheets } from './card/draw.js';
import { trackName } from './card/name.js';
import type { PrintWarning } from './card/warnings.js';
import { openDocument } from './layout/document.js';
import { printable } from './layout/printable.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { CARD_PAPERS, points, SHEET_PAPERS, type CardPaper, type SheetPaper } from './layout/paper.js';
import { SHEET_ORDERS, type SheetOrder } from './layout/sheet.js';
import { styleOf, type ThemeData } from './theme/index.js';

/** Widest bleed that is asked for, in millimetres. */
const WIDEST_BLEED = 10;

/** How cards are printed. @public */
export interface CardOptions extends RunOptions {
  /** Trimmed size of a card; default `A6`. */
  readonly paper?: CardPaper;
  /** The sheet that cards are laid out on to be cut; by default each is a page of its own. */
  readonly sheet?: SheetPaper;
  /** How cards are dealt out to sheets; default `sheet`. */
  readonly order?: SheetOrder;
  /** Millimetres from 0 to 10 that are printed beyond the trimmed edge; default 0. */
  readonly bleed?: number;
  /** Words behind the ladder: count table, irregularities, landmarks, notes; default true. */
  readonly back?: boolean;
  /** An index before the cards, which are sorted by it. */
  readonly index?: IndexOrder;
  /** Colours, hatches and words; default ink on white, in English. */
  readonly theme?: ThemeData;
  /** Language of the words, instead of the theme's. */
  readonly language?: Language;
  /** Replaces the file even if it is not one of ours, unchanged; default false. */
  readonly overwrite?: boolean;
}

/** What a printing has made, and what its reader should know of it. @public */
export interface PrintResult {
  /** Pages of the PDF, or pictures. */
  readonly pages: number;
  /** Files that were written, where the target was a name: more than one for pictures of several pages. */
  readonly files?: readonly string[];
  readonly warnings: readonly PrintWarning[];
}

/**
 * Prints a structure card for each track into one PDF: vector, tagged, fonts embedded, the same bytes for the same
 * tracks. A track that does not fit on one card goes on behind it.
 * @public
 * @param analyses at least one track
 * @param target name of a file, or a stream, which is ended
 * @throws BarwiseError `bad-option` without tracks, for an unknown paper or a theme that cannot be used,
 * `missing-package` where pdfkit or fontkit is not installed, `cannot-write` where the file is not ours or cannot be
 * made, `aborted`
 * @example await printCards([analysis], 'cards.pdf', { paper: 'A6', sheet: 'A4' })
 */
export async function printCards(
  analyses: readonly TrackAnalysis[],
  target: PieceTarget,
  options: CardOptions = {},
): Promise<PrintResult> {
  const { paper = 'A6', sheet, order = 'sheet', bleed = 0, back = true, index, onProgress, signal } = options;
  oneOf('paper for cards', paper, Object.keys(CARD_PAPERS));
  if (sheet !== undefined) oneOf('sheet', sheet, Object.keys(SHEET_PAPERS));
  if (index !== undefined) oneOf('order of an index', index, INDEX_ORDERS);
  oneOf('order of cards on sheets', order, SHEET_ORDERS);
  if (!(bleed >= 0 && bleed <= WIDEST_BLEED))
    throw new BarwiseError('bad-option', `The bleed is ${bleed} mm: give 0 to ${WIDEST_BLEED} mm.`);
  if (analyses.length === 0)
    throw new BarwiseError('bad-option', 'There is no track to print a card of: give at least one.');
  const style = styleOf(options.theme, options.language);
  await checkTarget(target, options.overwrite ?? false);
  const tracks = index === undefined ? analyses : inOrder(analyses, index);
  const { documents } = style.print;
  const what = tracks.length === 1 ? printable(trackName(tracks[0], style)) : documents.tracks(tracks.length);
  const piece = await openDocument({ title: documents.card(what), language: style.words.tag });
  const setting = { paper: CARD_PAPERS[paper], type: piece.type, style, back };
  const indexPaper = sheet === undefined ? setting.paper : SHEET_PAPERS[sheet];
  const before = index === undefined ? 0 : drawIndex(tracks, index, { piece, paper: indexPaper, style });
  const job = { piece, analyses: tracks, setting, bleed: points(bleed), onProgress, signal };
  const drawn = await (sheet === undefined ? drawCards(job) : drawSheets(job, SHEET_PAPERS[sheet], order));
  await deliver(await piece.finish(), target);
  return { pages: before + drawn.pages, warnings: drawn.warnings };
}

function oneOf(what: string, given: string, known: readonly string[]): void {
  if (known.includes(given)) return;
  throw new BarwiseError('bad-option', `There is no ${what} "${given}": use ${known.join(', ')}.`);
}
