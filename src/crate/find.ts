import { readdir, realpath, stat } from 'node:fs/promises';
import { extname, join, normalize, resolve } from 'node:path';
import { BarwiseError } from '../units/index.js';
import { asFailure, type CrateFailure } from './failure.js';

/** Endings by which a file in a folder is taken for audio; a file that is named itself is taken whatever it is called. */
export const AUDIO_ENDINGS: readonly string[] = [
  '.wav',
  '.wave',
  '.aif',
  '.aiff',
  '.aifc',
  '.flac',
  '.mp3',
  '.ogg',
  '.oga',
  '.m4a',
  '.mp4',
  '.aac',
];

const byName = new Intl.Collator('en', { numeric: true });

/** What `findTracks` found: the files in order, each once, and what was asked for and is not there. */
export interface FoundTracks {
  readonly files: string[];
  readonly failures: CrateFailure[];
}

/**
 * The audio files among files and folders. Folders are searched to the bottom, in the order of names (numbers by
 * value); hidden files and folders are passed over, and a folder that links back to itself is entered once.
 * A path that is missing, or a folder without audio, becomes a failure.
 */
export async function findTracks(paths: readonly string[]): Promise<FoundTracks> {
  const files: string[] = [];
  const failures: CrateFailure[] = [];
  const seen = new Set<string>();
  const take = (file: string) => {
    const id = resolve(file);
    if (!seen.has(id)) files.push(file);
    seen.add(id);
  };
  for (const path of paths) {
    try {
      if (!(await kindOf(path)).isDirectory()) take(path);
      else (await audioIn(path)).forEach(take);
    } catch (error) {
      failures.push(asFailure(path, error));
    }
  }
  return { files, failures };
}

async function kindOf(path: string) {
  try {
    return await stat(path);
  } catch (cause) {
    throw unreadable(path, cause);
  }
}

async function audioIn(folder: string): Promise<string[]> {
  const files = await walk(normalize(folder), new Set());
  if (files.length > 0) return files;
  throw new BarwiseError(
    'file-missing',
    `${folder} holds no audio files: give a folder with ${AUDIO_ENDINGS.map((e) => e.slice(1)).join(', ')} files in it.`,
    { file: folder },
  );
}

async function walk(folder: string, entered: Set<string>): Promise<string[]> {
  const real = await realpath(folder);
  if (entered.has(real)) return [];
  entered.add(real);
  const entries = await readdir(folder, { withFileTypes: true }).catch((cause: unknown) => {
    throw unreadable(folder, cause);
  });
  const found: string[] = [];
  for (const entry of entries.sort((a, b) => byName.compare(a.name, b.name) || (a.name < b.name ? -1 : 1))) {
    if (entry.name.startsWith('.')) continue;
    const path = join(folder, entry.name);
    // A link that leads nowhere is not a track.
    const kind = entry.isSymbolicLink() ? await stat(path).catch(() => null) : entry;
    if (kind?.isDirectory()) found.push(...(await walk(path, entered)));
    else if (kind?.isFile() && AUDIO_ENDINGS.includes(extname(entry.name).toLowerCase())) found.push(path);
  }
  return found;
}

function unreadable(path: string, cause: unknown): BarwiseError {
  const code = (cause as NodeJS.ErrnoException).code;
  return code === 'ENOENT' || code === 'ENOTDIR'
    ? new BarwiseError('file-missing', `${path} does not exist: check its name and folder.`, { file: path, cause })
    : new BarwiseError('file-unreadable', `${path} cannot be read (${code ?? String(cause)}): check its permissions.`, {
        file: path,
        cause,
      });
}
