import { basename } from 'node:path';
import {
  correctionsFile,
  correctionsFolder,
  correctionWords,
  correctTrack,
  inspectTrack,
  readCorrections,
  undoCorrection,
  type CorrectedTrack,
  type SaidCorrection,
} from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { wordsOf } from '../../wording/index.js';
import { correctionsOf, type CorrectionArguments } from '../correction-arguments.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { printable, say, type Io } from '../io.js';
import { showProgress } from '../progress.js';
import { wrapped } from '../paragraphs.js';
import { textTable } from '../table.js';
import { correctFrom, type TakenFrom } from './correct-from.js';

export interface CorrectArguments extends CorrectionArguments {
  readonly from?: string;
  readonly take?: string;
  readonly offset?: string;
  readonly undo?: string | true;
  readonly list?: boolean;
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly correctionsFolder?: string;
}

const USUAL_WIDTH = 80;

/** `barwise correct FILE …`: writes down what a person says about a track, and shows what that changes. */
export async function correctCommand(track: string, given: CorrectArguments, io: Io): Promise<ExitCode> {
  const add = correctionsOf(given);
  const folder = given.correctionsFolder ?? correctionsFolder(io.env);
  const { from } = given;
  const actions = [given.list === true, given.undo !== undefined, add.length > 0, from !== undefined];
  if (actions.filter(Boolean).length > 1)
    throw new BarwiseError(
      'bad-option',
      'Corrections, --from, --undo and --list do not go together: give one of them.',
    );
  if (from === undefined && (given.take ?? given.offset) !== undefined)
    throw new BarwiseError('bad-option', '--take and --offset go with --from only: name the file to take from.');
  if (!actions.includes(true) || given.list) return list(track, folder, given, io);
  const options = { correctionsFolder: folder, signal: io.signal, dryRun: given.dryRun === true };
  const { onProgress, stop } = showProgress(io);
  const work = (): Promise<CorrectedTrack | TakenFrom> => {
    if (from !== undefined) return correctFrom(track, { ...given, from }, { ...options, onProgress });
    if (given.undo === undefined) return correctTrack(track, add, { ...options, onProgress });
    return undoCorrection(track, undoNumber(given.undo), { ...options, onProgress });
  };
  const result = await work().finally(stop);
  if (given.json) io.stdout.write(`${JSON.stringify(plain(result))}\n`);
  else {
    if (result.takenBack.length > 1)
      io.stdout.write(
        `Taken back: ${result.takenBack.length} corrections from ${printable(`${result.takenBack[0].from}`)}.\n`,
      );
    io.stdout.write(changeTable(result, io));
    if ('sentences' in result)
      for (const sentence of result.sentences)
        io.stdout.write(`\n${wrapped(printable(sentence), widthOf(io), 2).trimStart()}`);
    if (given.dryRun) say(io, 'Nothing was written: this is what it would change.');
    else say(io, `Kept in ${result.file}`);
  }
  return EXIT.done;
}

async function list(track: string, folder: string, { json }: CorrectArguments, io: Io): Promise<ExitCode> {
  const { audioDigest } = await inspectTrack(track, { signal: io.signal });
  const corrections = await readCorrections(audioDigest, folder);
  if (json) io.stdout.write(`${JSON.stringify({ file: correctionsFile(audioDigest, folder), corrections })}\n`);
  else if (corrections.length === 0)
    say(io, `Nothing has been said about ${basename(track)} yet; barwise correct --help tells how.`);
  else {
    io.stdout.write(numbered(corrections));
    say(io, `Kept in ${correctionsFile(audioDigest, folder)}`);
  }
  return EXIT.done;
}

function numbered(corrections: readonly SaidCorrection[]): string {
  const width = `${corrections.length}`.length;
  return corrections.map((c, i) => `${`${i + 1}`.padStart(width)}  ${printable(sentence(c))}\n`).join('');
}

function sentence(c: SaidCorrection): string {
  const when = c.said === null ? [] : [c.said.replace('T', ' ').replace(/:\d\dZ$/, '')];
  const details = [...when, ...(c.from === null ? [] : [`from ${c.from}`])].join(', ');
  return details === '' ? correctionWords(c) : `${correctionWords(c)}  (${details})`;
}

function changeTable({ changes, corrections }: CorrectedTrack, io: Io): string {
  const said = numbered(corrections);
  const head =
    corrections.length === 0 ? 'Nothing is said about the track any more.\n' : `What is said about the track:\n${said}`;
  if (changes.length === 0) return `${head}It is counted so already: nothing changes.\n`;
  const names = wordsOf('en').story.changed;
  const rows = changes.map(({ what, before, after }, i) => [
    i > 0 && changes[i - 1].what === what ? '' : names[what],
    before || '–',
    after || '–',
  ]);
  const columns = [
    { head: 'what', least: 8 },
    { head: 'before', least: 12 },
    { head: 'after', least: 12 },
  ];
  return `${head}\n${textTable(columns, rows, { width: widthOf(io) })}`;
}

function plain({ changes, corrections, takenBack, file, after, ...rest }: CorrectedTrack | TakenFrom) {
  const more = 'sentences' in rest ? rest : null;
  const { taken, refused, notTaken, agreement, sentences } = more ?? {};
  const from = more === null ? {} : { taken, refused, notTaken, agreement, sentences };
  return { file, corrections, takenBack, ...from, changes, analysis: after };
}

function widthOf(io: Io): number {
  return io.stdout.columns ?? USUAL_WIDTH;
}

function undoNumber(text: string | true): number | undefined {
  if (text === true) return undefined;
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1) return value;
  throw new BarwiseError(
    'bad-option',
    `--undo does not take "${text}": give the number of a correction as --list shows it.`,
  );
}
