import { LEVELS, printWorksheets, WORKSHEET_PAPERS } from '../../../reports/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile, PDF_KIND } from '../output-file.js';
import { lookOf, paperOf, type PrintArguments } from '../print-options.js';

/** The options of `barwise worksheet`, as they come from the command line. */
export interface WorksheetArguments extends AnalysisArguments, PrintArguments {
  readonly level: string;
  readonly questions?: string;
  readonly variant?: string;
  /** False after `--no-key`. */
  readonly key?: boolean;
}

/** `barwise worksheet FILE|DIR… --out worksheet.pdf`: a blank ladder with questions, and the answer key. */
export async function worksheetCommand(paths: readonly string[], given: WorksheetArguments, io: Io): Promise<ExitCode> {
  const level = LEVELS.find((l) => `${l}` === given.level);
  if (level === undefined)
    throw new BarwiseError('bad-option', `--level does not take "${given.level}": give 1, 2 or 3.`);
  const overwrite = given.overwrite === true;
  const options = {
    ...(await lookOf(given)),
    paper: paperOf('--paper', given.paper, WORKSHEET_PAPERS),
    ...(given.questions === undefined ? {} : { questions: wholeNumber('--questions', given.questions) }),
    ...(given.variant === undefined ? {} : { variant: wholeNumber('--variant', given.variant) }),
    key: given.key !== false,
    overwrite,
    level,
  };
  await checkOutputFile(given.out, PDF_KIND, overwrite);
  const crate = await analyse(paths, given, io);
  if (crate.tracks.length > 0) {
    const { warnings } = await printWorksheets(crate.tracks, given.out, { ...options, signal: io.signal });
    warnings.forEach(({ file, message }) => say(io, `${file}: ${message}`));
    nameFile(io, given.out);
  }
  return exitCodeFor(crate);
}

function wholeNumber(option: string, text: string): number {
  const value = Number(text);
  if (Number.isInteger(value)) return value;
  throw new BarwiseError('bad-option', `${option} does not take "${text}": give a whole number.`);
}
