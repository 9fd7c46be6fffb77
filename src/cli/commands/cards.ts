import { CARD_FORMATS, printCards, type CardFormat } from '../../../reports/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { say, type Io } from '../io.js';
import { checkOutputFile, PDF_KIND } from '../output-file.js';

/** `barwise cards FILE|DIR… --out cards.pdf`: a structure card for every track. */
export async function cardsCommand(
  paths: readonly string[],
  options: AnalysisArguments & { readonly out: string; readonly paper: string },
  io: Io,
): Promise<ExitCode> {
  const paper = paperOf(options.paper);
  await checkOutputFile(options.out, PDF_KIND);
  const crate = await analyse(paths, options, io);
  if (crate.tracks.length > 0) {
    const { warnings } = await printCards(crate.tracks, options.out, { paper, signal: io.signal });
    warnings.forEach(({ message }) => say(io, message));
    io.stdout.write(`${options.out}\n`);
  }
  return exitCodeFor(crate);
}

function paperOf(name: string): CardFormat {
  const paper = CARD_FORMATS.find((format) => format.toLowerCase() === name.toLowerCase());
  if (paper) return paper;
  throw new BarwiseError('bad-option', `--paper does not take "${name}": give ${CARD_FORMATS.join(', ')}.`);
}
