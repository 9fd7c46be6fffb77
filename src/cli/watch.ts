import { watch } from 'chokidar';
import { extname, resolve } from 'node:path';
import {
  AUDIO_ENDINGS,
  listCrate,
  queryCrate,
  type CrateOptions,
  type CrateQuery,
  type TrackOutline,
} from '../crate/index.js';
import { say, type Io } from './io.js';
import { reportCrate } from './report-failures.js';
import { crateRow, CRATE_FIELDS } from './rows.js';
import { tabSeparated } from './table.js';

/** A file that is being copied is left alone until it has not grown for this long. */
const SETTLED_MS = 1500;

/** What to watch. */
export interface Watching {
  readonly paths: readonly string[];
  readonly options: CrateOptions;
  readonly io: Io;
  readonly known: readonly TrackOutline[];
  readonly query: CrateQuery;
}

/** Prints a line for every track that comes or changes, until the command is interrupted. */
export async function watchCrate({ paths, options, io, known, query }: Watching): Promise<void> {
  const shown = new Map(known.map((t) => [resolve(t.source.file), t.source.audioDigest]));
  const watcher = watch([...paths], {
    ignored: (path, stats) =>
      /(^|[/\\])\.[^/\\.]/.test(path) ||
      (stats?.isFile() === true && !AUDIO_ENDINGS.includes(extname(path).toLowerCase())),
    ignoreInitial: true,
    followSymlinks: false,
    awaitWriteFinish: { stabilityThreshold: SETTLED_MS },
  });
  // One after the other: what comes while a track is analysed waits its turn.
  let last = Promise.resolve();
  const take = (file: string) => {
    last = last.then(() => one(file)).catch(() => undefined);
  };
  const one = async (file: string): Promise<void> => {
    if (io.signal.aborted) return;
    const crate = await listCrate([file], { ...options, workers: 1, signal: io.signal });
    reportCrate(io, crate);
    const fitting = queryCrate(crate.tracks, query).filter((t) => shown.get(resolve(file)) !== t.source.audioDigest);
    for (const track of crate.tracks) shown.set(resolve(file), track.source.audioDigest);
    const rows = fitting.map(crateRow).map((row) => CRATE_FIELDS.map((f) => row[f]));
    if (rows.length > 0) io.stdout.write(tabSeparated(CRATE_FIELDS, rows).split('\n').slice(1).join('\n'));
  };
  watcher.on('add', take).on('change', take);
  watcher.on('unlink', (file) => {
    if (shown.delete(resolve(file))) say(io, `${file} is gone.`);
  });
  watcher.on('error', (error) => say(io, `The folder cannot be watched (${String(error)}).`));
  await new Promise<void>((stop) => {
    if (io.signal.aborted) stop();
    io.signal.addEventListener('abort', () => stop(), { once: true });
  });
  await watcher.close();
  await last;
}
