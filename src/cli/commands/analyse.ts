import { stat } from 'node:fs/promises';
import type { CrateAnalysis } from '../../crate/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { hasStyle, type Io } from '../io.js';
import { reportFailures } from '../report-failures.js';
import { trackRow, type TrackRow } from '../rows.js';
import { tabSeparated, textTable, type Column } from '../table.js';

/** On a terminal. */
const COLUMNS: readonly (Column & { readonly of: keyof TrackRow })[] = [
  { of: 'title', head: 'Track', least: 14 },
  { of: 'bpm', head: 'BPM', align: 'right' },
  { of: 'key', head: 'Key' },
  { of: 'length', head: 'Length', align: 'right' },
  { of: 'phrases', head: 'Phrases (bars)', short: 'Phrases', least: 10 },
  { of: 'irregularities', head: 'Odd', align: 'right' },
  { of: 'doubt', head: 'Doubt', least: 10 },
];
/** For other programs. */
const FIELDS = ['file', 'title', 'artist', 'bpm', 'key', 'length', 'phrases', 'irregularities', 'doubt'] as const;
const USUAL_WIDTH = 80;

/** `barwise analyse FILE|DIR…`: what was found as a table, or everything as JSON. */
export async function analyseCommand(
  paths: readonly string[],
  options: AnalysisArguments & { readonly json?: boolean },
  io: Io,
): Promise<ExitCode> {
  const crate = await analyse(paths, options, io, { failuresLater: true });
  io.stdout.write(options.json ? await asJson(paths, crate, io) : asTable(crate.tracks, io));
  // Last, so that a long table does not push them out of sight.
  reportFailures(io, crate);
  return exitCodeFor(crate);
}

function asTable(tracks: readonly TrackAnalysis[], io: Io): string {
  if (tracks.length === 0) return '';
  const rows = tracks.map(trackRow);
  if (io.stdout.isTTY !== true)
    return tabSeparated(
      FIELDS,
      rows.map((row) => FIELDS.map((f) => row[f])),
    );
  return textTable(
    COLUMNS,
    rows.map((row) => COLUMNS.map((c) => row[c.of])),
    {
      width: io.stdout.columns ?? USUAL_WIDTH,
      bold: hasStyle(io.stdout, io.env),
    },
  );
}

/** One file: its analysis (nothing when there is none). Several or a folder: tracks and failures. */
async function asJson(paths: readonly string[], { tracks, failures }: CrateAnalysis, io: Io): Promise<string> {
  const single = paths.length === 1 && !(await isFolder(paths[0]));
  if (single && tracks.length === 0) return '';
  const data = single
    ? tracks[0]
    : { tracks, failures: failures.map(({ file, code, message }) => ({ file, code, message })) };
  return `${JSON.stringify(data, null, io.stdout.isTTY === true ? 1 : 0)}\n`;
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() ?? false;
}
