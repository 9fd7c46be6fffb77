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
import { textTable } from '../table.js';

export interface CorrectArguments extends CorrectionArguments {
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
  const actions = [given.list === true, given.undo !== undefined, add.length > 0].filter(Boolean).length;
  if (actions > 1)
    throw new BarwiseError('bad-option', 'Corrections, --undo and --list do not go together: give one of them.');
  if (actions === 0 || given.list) return list(track, folder, given, io);
  const options = { correctionsFolder: folder, signal: io.signal, dryRun: given.dryRun === true };
  const { onProgress, stop } = showProgress(io);
  const result = await (
    given.undo === undefined
      ? correctTrack(track, add, { ...options, onProgress })
      : undoCorrection(track, undoNumber(given.undo), { ...options, onProgress })
  ).finally(stop);
  if (given.json) io.stdout.write(`${JSON.stringify(plain(result))}\n`);
  else {
    io.stdout.write(changeTable(result, io));
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
    io.stdout.write(corrections.map((c, i) => `${i + 1}  ${printable(sentence(c))}\n`).join(''));
    say(io, `Kept in ${correctionsFile(audioDigest, folder)}`);
  }
  return EXIT.done;
}

function sentence(c: SaidCorrection): string {
  const when = c.said === null ? [] : [c.said.replace('T', ' ').replace(/:\d\dZ$/, '')];
  const details = [...when, ...(c.from === null ? [] : [`from ${c.from}`])].join(', ');
  return details === '' ? correctionWords(c) : `${correctionWords(c)}  (${details})`;
}

function changeTable({ changes, corrections }: CorrectedTrack, io: Io): string {
  const said = corrections.map((c, i) => `${i + 1}  ${printable(sentence(c))}\n`).join('');
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
  return `${head}\n${textTable(columns, rows, { width: io.stdout.columns ?? USUAL_WIDTH })}`;
}

function plain({ changes, corrections, file, after }: CorrectedTrack) {
  return { file, corrections, changes, analysis: after };
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
