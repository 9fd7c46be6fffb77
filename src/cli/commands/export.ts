import { mkdir } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { writeAtomically } from '../../audio/index.js';
import { TABLES, toCsv, toJams, toJsonLines, toMidi, toRows, type TableName } from '../../exchange/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { BarwiseError, printable } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { EXIT, exitCodeFor, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile, type OutputKind } from '../output-file.js';

export type ExportArguments = AnalysisArguments & {
  readonly format: string;
  readonly table?: string;
  readonly out?: string;
};

/** Formats with a file for every track. */
const FILES: Record<'jams' | 'midi', OutputKind & { bytes: (analysis: TrackAnalysis) => Uint8Array }> = {
  jams: {
    ending: '.jams',
    is: (start) => /"(file_metadata|annotations)"/.test(start),
    bytes: (analysis) => Buffer.from(`${JSON.stringify(toJams(analysis), null, 1)}\n`),
  },
  midi: { ending: '.mid', is: (start) => start.startsWith('MThd'), bytes: (analysis) => toMidi(analysis) },
};

/** Formats with a line for every row of every track. */
const LINES = { csv: toCsv, jsonl: toJsonLines } as const;

/** `barwise export FILE|DIR…`: what was found, in open formats. */
export async function exportCommand(paths: readonly string[], given: ExportArguments, io: Io): Promise<ExitCode> {
  const { format } = given;
  if (format in LINES) return exportLines(paths, given, format as keyof typeof LINES, io);
  if (format in FILES) return exportFiles(paths, given, format as keyof typeof FILES, io);
  throw new BarwiseError('bad-option', `--format does not take "${format}": give jams, midi, csv or jsonl.`);
}

async function exportLines(
  paths: readonly string[],
  given: ExportArguments,
  format: keyof typeof LINES,
  io: Io,
): Promise<ExitCode> {
  const table = tableOf(given.table ?? 'bars');
  const kind: OutputKind = { ending: `.${format}`, is: (start) => /^("?track"?,|\{"track":)/.test(start) };
  if (given.out !== undefined) await checkOutputFile(given.out, kind);
  const crate = await analyse(paths, given, io);
  const text = LINES[format](crate.tracks.flatMap((track) => toRows(track, table)));
  if (given.out === undefined) io.stdout.write(text);
  else if (crate.tracks.length > 0) {
    await writeAtomically(given.out, [Buffer.from(text)]);
    nameFile(io, given.out);
  }
  return exitCodeFor(crate);
}

async function exportFiles(
  paths: readonly string[],
  given: ExportArguments,
  format: keyof typeof FILES,
  io: Io,
): Promise<ExitCode> {
  if (given.table !== undefined) throw new BarwiseError('bad-option', '--table goes with csv and jsonl only.');
  const { ending } = FILES[format];
  // What ends like a file is one, and a file holds one track.
  const named = given.out?.toLowerCase().endsWith(ending) ? given.out : undefined;
  const crate = await analyse(paths, given, io);
  if (named !== undefined && crate.tracks.length > 1)
    throw new BarwiseError(
      'bad-option',
      `${crate.tracks.length} tracks do not go into one ${ending} file: give --out a folder.`,
    );
  const folder = named === undefined ? (given.out ?? '.') : dirname(named);
  if (crate.tracks.length > 0) await makeFolder(folder);
  const taken = new Set<string>();
  let left = 0;
  for (const track of crate.tracks) {
    const file = named ?? join(folder, freeName(track, ending, taken));
    try {
      await checkOutputFile(file, FILES[format]);
      await writeAtomically(file, [FILES[format].bytes(track)]);
      nameFile(io, file);
    } catch (error) {
      if (!(error instanceof BarwiseError || error instanceof RangeError)) throw error;
      say(io, error instanceof BarwiseError ? error.message : `${track.source.file}: ${error.message}`);
      left++;
    }
  }
  if (left === 0) return exitCodeFor(crate);
  return left === crate.tracks.length ? EXIT.nothing : EXIT.some;
}

/** File systems take 255 bytes, the ending and a number among them. */
const MOST_BYTES = 240;

function cutTo(bytes: number, text: string): string {
  const characters = [...text];
  while (Buffer.byteLength(characters.join('')) > bytes) characters.pop();
  return characters.join('');
}

/** A name after the music's own, without what steers a terminal or ends a line, told apart from others of this run by a number. */
function freeName({ source }: TrackAnalysis, ending: string, taken: Set<string>): string {
  const stem = cutTo(MOST_BYTES, printable(basename(source.file, extname(source.file))).trim()) || 'track';
  for (let n = 1; ; n++) {
    const name = `${stem}${n > 1 ? `-${n}` : ''}${ending}`;
    if (taken.has(name.toLowerCase())) continue;
    taken.add(name.toLowerCase());
    return name;
  }
}

async function makeFolder(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true }).catch((cause: unknown) => {
    throw new BarwiseError('cannot-write', `The folder ${folder} could not be made: check its name and permissions.`, {
      file: folder,
      cause,
    });
  });
}

function tableOf(name: string): TableName {
  const table = TABLES.find((t) => t === name);
  if (table) return table;
  throw new BarwiseError('bad-option', `--table does not take "${name}": give ${TABLES.join(', ')}.`);
}
