import { stringify } from 'csv-stringify/sync';
import { listCrate, queryCrate, type CrateListing, type TrackOutline } from '../../crate/index.js';
import { plainText } from '../../exchange/index.js';
import { crateOptions, type AnalysisArguments } from '../arguments.js';
import { crateQuery, type QueryArguments } from '../crate-query.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { crateTable } from '../crate-table.js';
import { say, type Io } from '../io.js';
import { showProgress } from '../progress.js';
import { reportCrate } from '../report-failures.js';
import { crateRow, CRATE_FIELDS, type CrateRow } from '../rows.js';
import { watchCrate } from '../watch.js';

export type CrateArguments = AnalysisArguments &
  QueryArguments & { readonly json?: boolean; readonly csv?: boolean; readonly watch?: boolean };

/** `barwise crate DIR…`: the crate as a list, filtered and sorted; what is new in it is analysed first. */
export async function crateCommand(paths: readonly string[], given: CrateArguments, io: Io): Promise<ExitCode> {
  const query = crateQuery(given);
  const options = crateOptions(given, io.env);
  const list = async (): Promise<CrateListing> => {
    const { onProgress, onTrack, stop } = showProgress(io);
    try {
      return await listCrate(paths, { ...options, onProgress, onTrack, signal: io.signal });
    } finally {
      stop();
    }
  };
  const crate = await list();
  const fitting = queryCrate(crate.tracks, query);
  print(fitting, crate, given, io);
  // Last, so that a long table does not push them out of sight.
  reportCrate(io, crate);
  if (fitting.length < crate.tracks.length) say(io, `${fitting.length} of ${crate.tracks.length} tracks fit.`);
  if (!given.watch) return exitCodeFor(crate);
  say(io, 'Watching for new and changed tracks; Ctrl-C ends it.');
  await watchCrate({ paths, options, io, known: crate, query });
  return exitCodeFor(crate);
}

function print(tracks: readonly TrackOutline[], crate: CrateListing, { json, csv }: CrateArguments, io: Io): void {
  const rows = tracks.map(crateRow);
  if (json) {
    const failures = crate.failures.map(({ file, code, message }) => ({ file, code, message }));
    io.stdout.write(`${JSON.stringify({ tracks, failures, duplicates: crate.duplicates }, null, 1)}\n`);
  } else if (csv) io.stdout.write(asCsv(rows));
  else if (rows.length > 0) io.stdout.write(crateTable(rows, io));
}

/** RFC 4180. */
function asCsv(rows: readonly CrateRow[]): string {
  return stringify(
    rows.map((row) => CRATE_FIELDS.map((f) => (FREE_TEXT.has(f) ? plainText(row[f]) : row[f]))),
    { header: true, columns: [...CRATE_FIELDS], record_delimiter: '\r\n' },
  );
}

/** What others wrote: a spreadsheet would run it if it looked like a formula, so such a text is led by an apostrophe. */
const FREE_TEXT = new Set<keyof CrateRow>(['file', 'title', 'artist']);
