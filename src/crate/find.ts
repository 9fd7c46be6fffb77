import { readdir, realpath, stat } from 'node:fs/promises';
import { extname, join, normalize, resolve, sep } from 'node:path';
import { BarwiseError } from '../units/index.js';
import { CACHE_FOLDER } from './cache.js';
import { asFailure, type CrateFailure } from './failure.js';

/**
 * Endings by which a file in a folder is taken for audio; a file that is named itself is taken whatever it is called.
 * @public
 */
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

/** What `findTracks` found: the files in order, each once, and what was asked for and is not there. @public */
export interface FoundTracks {
  readonly files: string[];
  readonly failures: CrateFailure[];
  /** Sentences about what was passed over on purpose: links that lead out of the folder. */
  readonly notices: string[];
  /** The cache folders that stand in the folders that were searched. */
  readonly cacheFolders?: readonly string[];
}

/**
 * The audio files among files and folders. Folders are searched to the bottom, in the order of names (numbers by
 * value); hidden files and folders are passed over, and a folder that links back to itself is entered once.
 * A link inside a folder is followed only when it stays in that folder: what somebody else put there must not make us
 * read the rest of the disk. A path that is missing, or a folder without audio, becomes a failure.
 * @public
 */
export async function findTracks(paths: readonly string[]): Promise<FoundTracks> {
  const files: string[] = [];
  const failures: CrateFailure[] = [];
  const notices: string[] = [];
  const cacheFolders: string[] = [];
  const seen = new Set<string>();
  const take = (file: string) => {
    const id = resolve(file);
    if (!seen.has(id)) files.push(file);
    seen.add(id);
  };
  for (const path of paths) {
    try {
      if (!(await kindOf(path)).isDirectory()) take(path);
      else (await audioIn(path, { failures, notices, cacheFolders })).forEach(take);
    } catch (error) {
      failures.push(asFailure(path, error));
    }
  }
  return { files, failures, notices, ...(cacheFolders.length > 0 ? { cacheFolders } : {}) };
}

async function kindOf(path: string) {
  try {
    return await stat(path);
  } catch (cause) {
    throw unreadable(path, cause);
  }
}

type Aside = Pick<Walk, 'failures' | 'cacheFolders'> & { readonly notices: string[] };

async function audioIn(folder: string, { failures, notices, cacheFolders }: Aside): Promise<string[]> {
  const walking: Walk = { root: await realpath(folder), entered: new Set(), leaving: [], cacheFolders, failures };
  const before = failures.length;
  const files = await walk(normalize(folder), walking);
  const [first, ...others] = walking.leaving;
  if (first !== undefined) {
    const more = others.length > 0 ? ` and ${others.length} more` : '';
    notices.push(`Links that lead out of ${folder} were passed over: ${first}${more}; name where they lead to.`);
  }
  if (files.length > 0 || failures.length > before) return files;
  throw new BarwiseError(
    'file-missing',
    `${folder} holds no audio files: give a folder with ${AUDIO_ENDINGS.map((e) => e.slice(1)).join(', ')} files in it.`,
    { file: folder },
  );
}

/** A search through one folder. */
interface Walk {
  /** The folder itself, links resolved. */
  readonly root: string;
  readonly entered: Set<string>;
  /** Links that lead out of it. */
  readonly leaving: string[];
  readonly cacheFolders: string[];
  readonly failures: CrateFailure[];
}

async function walk(folder: string, walking: Walk): Promise<string[]> {
  const real = await realpath(folder);
  if (walking.entered.has(real)) return [];
  walking.entered.add(real);
  const entries = await readdir(folder, { withFileTypes: true }).catch((cause: unknown) => {
    throw unreadable(folder, cause);
  });
  const found: string[] = [];
  for (const entry of entries.sort((a, b) => byName.compare(a.name, b.name) || (a.name < b.name ? -1 : 1))) {
    if (entry.name === CACHE_FOLDER && entry.isDirectory()) walking.cacheFolders.push(join(folder, entry.name));
    if (entry.name.startsWith('.')) continue;
    const path = join(folder, entry.name);
    const kind = entry.isSymbolicLink() ? await behindLink(path, walking) : entry;
    if (kind?.isDirectory()) found.push(...(await walk(path, walking).catch(asideTo(walking, path))));
    else if (kind?.isFile() && AUDIO_ENDINGS.includes(extname(entry.name).toLowerCase())) {
      if (await isNameable(path)) found.push(path);
      else walking.failures.push(asFailure(path, unnameable(path)));
    }
  }
  return found;
}

/** A folder within that cannot be read costs what is in it, and nothing else. */
function asideTo({ failures }: Walk, path: string): (error: unknown) => string[] {
  return (error) => {
    failures.push(asFailure(path, error));
    return [];
  };
}

/** Names are bytes to some systems; those that are no text cannot be handed on, and a letter stands where they were. */
async function isNameable(path: string): Promise<boolean> {
  if (!path.includes('\ufffd')) return true;
  return stat(path).then(
    () => true,
    () => false,
  );
}

function unnameable(path: string): BarwiseError {
  return new BarwiseError('file-unreadable', `${path} has a name that is no text in UTF-8: rename it.`, { file: path });
}

/** What a link leads to; nothing when that is not there, or outside of the folder. */
async function behindLink(path: string, { root, leaving }: Walk) {
  try {
    const target = await realpath(path);
    if (target === root || target.startsWith(root.endsWith(sep) ? root : root + sep)) return await stat(path);
    const kind = await stat(path);
    if (kind.isDirectory() || AUDIO_ENDINGS.includes(extname(path).toLowerCase())) leaving.push(path);
    return null;
  } catch {
    return null;
  }
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
