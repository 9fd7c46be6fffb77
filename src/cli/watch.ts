import { watch } from 'chokidar';
import { dirname, extname, join, relative, resolve } from 'node:path';
import {
  AUDIO_ENDINGS,
  CACHE_FOLDER,
  findTracks,
  listCrate,
  queryCrate,
  type CrateListing,
  type CrateOptions,
  type CrateQuery,
} from '../crate/index.js';
import { crateTable } from './crate-table.js';
import { say, type Io } from './io.js';
import { reportCrate } from './report-failures.js';
import { crateRow } from './rows.js';
import { whereabouts } from './whereabouts.js';

/** A file that is being copied is left alone until it has not grown for this long. */
const SETTLED_MS = 1500;

/** What to watch. */
export interface Watching {
  readonly paths: readonly string[];
  readonly options: CrateOptions;
  readonly io: Io;
  /** The crate as it was listed. */
  readonly known: CrateListing;
  readonly query: CrateQuery;
}

/** Prints a line for every track that comes, changes, moves or goes, until the command is interrupted. */
export async function watchCrate({ paths, options, io, known, query }: Watching): Promise<void> {
  const tracks = whereabouts(known.tracks, (sentence) => say(io, sentence));
  const above = queryCrate(known.tracks, query).map(crateRow);
  const folders = new Set(known.tracks.map((t) => dirname(t.source.file)));
  const watcher = watch([...paths], {
    ignored: (path, stats) =>
      isHidden(path, paths) || (stats?.isFile() === true && !AUDIO_ENDINGS.includes(extname(path).toLowerCase())),
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
    folders.add(dirname(file));
    const lookIn = [...folders].map((folder) => join(folder, CACHE_FOLDER));
    const crate = await listCrate([file], { ...options, lookIn, workers: 1, signal: io.signal });
    reportCrate(io, crate);
    const news = crate.tracks.filter((track) => tracks.comes(track));
    const rows = queryCrate(news, query).map(crateRow);
    if (rows.length > 0) io.stdout.write(crateTable(rows, io, above));
  };
  watcher.on('add', take).on('change', take);
  watcher.on('unlink', (file) => tracks.goes(file));
  watcher.on('error', (error) => say(io, `The folder cannot be watched (${String(error)}).`));
  watcher.on('ready', () => void cameMeanwhile(paths, known).then((files) => files.forEach(take)));
  await new Promise<void>((stop) => {
    if (io.signal.aborted) stop();
    io.signal.addEventListener('abort', () => stop(), { once: true });
  });
  await watcher.close();
  await last;
  tracks.end();
}

/** Hidden files and folders are passed over below what is watched, wherever that itself lies. */
function isHidden(path: string, roots: readonly string[]): boolean {
  return roots.every((root) => {
    const below = relative(root, path);
    return below.startsWith('..') || /(^|[/\\])\.[^/\\.]/.test(below);
  });
}

/** Files that came while the crate was analysed, before it was watched. */
async function cameMeanwhile(paths: readonly string[], known: CrateListing): Promise<string[]> {
  const listed = [...known.tracks.map((t) => t.source.file), ...known.failures.map((f) => f.file)];
  const places = new Set(listed.map((file) => resolve(file)));
  return (await findTracks(paths)).files.filter((file) => !places.has(resolve(file)));
}
