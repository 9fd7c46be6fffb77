import {
  CARD_PAPERS,
  INDEX_ORDERS,
  printCards,
  SHEET_ORDERS,
  SHEET_PAPERS,
  type CardOptions,
} from '../../../reports/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile, PDF_KIND } from '../output-file.js';
import { wordOption } from '../options.js';
import { lookOf, paperOf, type PrintArguments } from '../print-options.js';

/** The options of `barwise cards`, as they come from the command line. */
export interface CardArguments extends AnalysisArguments, PrintArguments {
  readonly layout?: string;
  readonly order?: string;
  readonly bleed?: string;
  /** False after `--no-back`. */
  readonly back?: boolean;
  readonly index?: string;
}

/** `barwise cards FILE|DIR… --out cards.pdf`: a structure card for every track. */
export async function cardsCommand(paths: readonly string[], given: CardArguments, io: Io): Promise<ExitCode> {
  const options = await cardOptions(given);
  await checkOutputFile(given.out, PDF_KIND, options.overwrite);
  const crate = await analyse(paths, given, io);
  if (crate.tracks.length > 0) {
    const { warnings } = await printCards(crate.tracks, given.out, { ...options, signal: io.signal });
    warnings.forEach(({ file, message }) => say(io, `${file}: ${message}`));
    nameFile(io, given.out);
  }
  return exitCodeFor(crate);
}

async function cardOptions(given: CardArguments): Promise<CardOptions> {
  // "A4-sheet" says in one word: A6 cards on sheets of A4.
  const inOne = given.paper.toLowerCase() === 'a4-sheet';
  const layout = inOne ? 'A4' : given.layout;
  const bleed = given.bleed === undefined ? 0 : Number(given.bleed);
  if (!Number.isFinite(bleed))
    throw new BarwiseError('bad-option', `--bleed does not take "${given.bleed}": give millimetres, like 3.`);
  return {
    ...(await lookOf(given)),
    paper: inOne ? 'A6' : paperOf('--paper', given.paper, CARD_PAPERS),
    ...(layout === undefined ? {} : { sheet: paperOf('--layout', layout, SHEET_PAPERS) }),
    ...(given.order === undefined ? {} : { order: wordOption(given.order, '--order', SHEET_ORDERS) }),
    ...(given.index === undefined ? {} : { index: wordOption(given.index, '--index', INDEX_ORDERS) }),
    bleed,
    back: given.back !== false,
    overwrite: given.overwrite === true,
  };
}
