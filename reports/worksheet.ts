import { BarwiseError, throwIfAborted, type RunOptions, type TrackAnalysis } from '../src/index.js';
import type { Language } from '../src/wording/index.js';
import type { PrintResult } from './card.js';
import { trackName } from './card/name.js';
import { cardWarnings, type PrintWarning } from './card/warnings.js';
import { paintPaper, type Canvas } from './layout/canvas.js';
import { openDocument } from './layout/document.js';
import { printable } from './layout/printable.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { WORKSHEET_PAPERS, type WorksheetPaper } from './layout/paper.js';
import { styleOf, type ThemeData } from './theme/index.js';
import { planKey, planQuestions } from './worksheet/plan.js';
import { LEVELS, questionsAbout, type Level } from './worksheet/questions.js';

/** What a worksheet asks, and how it is printed. @public */
export interface WorksheetOptions extends RunOptions {
  /** Default `A4`, upright. */
  readonly paper?: WorksheetPaper;
  /** 1: layers and sections; 2: phrases; 3: counting, planning ahead. Default 1. */
  readonly level?: Level;
  /** Most questions on a sheet, 1 to 6; default 6. */
  readonly questions?: number;
  /** A whole number: other layers, phrases and bars are asked for. Default 1. */
  readonly variant?: number;
  /** Whether answer keys follow behind all worksheets; default true. */
  readonly key?: boolean;
  readonly theme?: ThemeData;
  readonly language?: Language;
  /** Replaces the file even if it is not one of ours, unchanged; default false. */
  readonly overwrite?: boolean;
}

/** Most questions that a level has. */
const MOST_QUESTIONS = 6;

/**
 * Prints a worksheet for each track: a ladder to be filled in and questions that its analysis is sure enough to answer;
 * the answer keys come after all of them, on pages of their own.
 * @public
 * @throws BarwiseError as `printCards`; `bad-option` where no track gives a question
 * @example await printWorksheets([analysis], 'worksheet.pdf', { level: 2 })
 */
export async function printWorksheets(
  tracks: readonly TrackAnalysis[],
  target: PieceTarget,
  options: WorksheetOptions = {},
): Promise<PrintResult> {
  const {
    paper: paperName = 'A4',
    level = 1,
    questions: most = MOST_QUESTIONS,
    variant = 1,
    key = true,
    signal,
  } = options;
  if (!Object.hasOwn(WORKSHEET_PAPERS, paperName)) {
    const known = Object.keys(WORKSHEET_PAPERS).join(', ');
    throw new BarwiseError('bad-option', `There is no paper "${paperName}" for a worksheet: use ${known}.`);
  }
  if (!LEVELS.includes(level))
    throw new BarwiseError('bad-option', `There is no level ${String(level)}: use 1, 2 or 3.`);
  if (!(Number.isInteger(most) && most >= 1 && most <= MOST_QUESTIONS))
    throw new BarwiseError('bad-option', `A worksheet cannot have ${most} questions: give 1 to ${MOST_QUESTIONS}.`);
  const style = styleOf(options.theme, options.language);
  await checkTarget(target, options.overwrite ?? false);
  const asked = tracks.map((track) => ({ track, questions: questionsAbout(track, style, level, most, variant) }));
  const sheets = asked.filter(({ questions }) => questions.length > 0);
  if (sheets.length === 0)
    throw new BarwiseError(
      'bad-option',
      'None of the tracks is sure enough to ask about: give another track or level.',
    );
  const names = sheets.map(({ track }) => printable(trackName(track, style)));
  const { documents } = style.print;
  const what = names.length === 1 ? names[0] : documents.tracks(names.length);
  const piece = await openDocument({ title: documents.worksheet(what), language: style.words.tag });
  const paper = WORKSHEET_PAPERS[paperName];
  const setting = { paper, type: piece.type, style, level };
  const { surface } = piece;
  let pages = 0;
  const draw = (name: string, plans: readonly ((canvas: Canvas) => void)[]): void => {
    const section = surface.open(piece.root, 'Sect', name);
    plans.forEach((page, i) => {
      piece.addPage(paper);
      if (i === 0) piece.doc.outline.addItem(name);
      const canvas: Canvas = { surface, style, section, x: 0, y: 0 };
      paintPaper(canvas, paper, 0);
      page(canvas);
    });
    surface.close(section);
    pages += plans.length;
  };
  for (const [i, { track, questions }] of sheets.entries()) {
    throwIfAborted(signal);
    draw(names[i], planQuestions(track, questions, setting));
  }
  for (const [i, { track, questions }] of (key ? sheets : []).entries()) {
    throwIfAborted(signal);
    draw(`${style.print.worksheet.key}: ${names[i]}`, planKey(track, questions, setting));
  }
  await deliver(await piece.finish(), target);
  const warnings = asked.flatMap(({ track, questions }): readonly PrintWarning[] =>
    questions.length > 0
      ? cardWarnings(track, [], piece.type, style)
      : [{ code: 'no-questions', file: track.source.file, message: style.print.warnings.noQuestions }],
  );
  return { pages, warnings };
}
