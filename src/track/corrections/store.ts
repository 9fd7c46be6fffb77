import { mkdir, open, readFile, rm, stat } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { writeAtomically, writeTrouble } from '../../audio/index.js';
import { BarwiseError } from '../../units/index.js';
import type { SaidCorrection } from './correction.js';
import { editCorrections, newCorrections, parseCorrections } from './format.js';
import { correctionsFile } from './place.js';

/**
 * Whose corrections: the track by its audio, its file's name for the person who reads the YAML, and where they lie.
 * @public
 */
export interface CorrectionsOf {
  readonly audioDigest: string;
  readonly file: string;
  /** The folder with corrections; by default the person's own. */
  readonly folder?: string | undefined;
}

/** Another program holds the file this long at most (ms); a lock that is older was left by one that was killed. */
const LOCK_WAIT_MS = 5_000;
const LOCK_STALE_MS = 20_000;

/**
 * What was said about a track; nothing where nobody has said anything.
 * @public
 * @throws BarwiseError `damaged` (with the line), `file-unreadable`
 */
export async function readCorrections(audioDigest: string, folder?: string): Promise<SaidCorrection[]> {
  const file = correctionsFile(audioDigest, folder);
  const text = await textOf(file);
  return text === null ? [] : parsed(text, file, audioDigest);
}

/**
 * Adds corrections. The previous version stays beside the new one.
 * @public
 * @throws BarwiseError also `cannot-write`
 */
export async function appendCorrections(
  track: CorrectionsOf,
  add: readonly SaidCorrection[],
): Promise<SaidCorrection[]> {
  return changed(track, (text, file) =>
    text === null
      ? newCorrections(track.audioDigest, basename(track.file), add)
      : editCorrections(text, file, { add: [...add] }),
  );
}

/**
 * Takes corrections away.
 * @public
 * @param index from 0, as `readCorrections` gives them; one or several
 */
export async function removeCorrection(
  track: CorrectionsOf,
  index: number | readonly number[],
): Promise<SaidCorrection[]> {
  return changed(track, (text, file) =>
    text === null ? null : editCorrections(text, file, { remove: typeof index === 'number' ? [index] : index }),
  );
}

async function changed(
  { audioDigest, folder }: CorrectionsOf,
  edit: (text: string | null, file: string) => string | null,
): Promise<SaidCorrection[]> {
  const file = correctionsFile(audioDigest, folder);
  await mkdir(dirname(file), { recursive: true }).catch((cause: unknown) => {
    throw new BarwiseError('cannot-write', `${file} could not be written (${writeTrouble(cause)}): check the folder.`, {
      file,
      cause,
    });
  });
  return locked(`${file}.lock`, async () => {
    const before = await textOf(file);
    if (before !== null) parsed(before, file, audioDigest);
    const text = edit(before, file);
    if (text === null) return [];
    // What is about to be written is read as it will be read later: nothing is kept that could not be.
    const now = parsed(text, file, audioDigest);
    const bytes = (t: string) => [new TextEncoder().encode(t)];
    if (before !== null) await writeAtomically(file.replace(/\.yaml$/, '.previous.yaml'), bytes(before));
    await writeAtomically(file, bytes(text));
    return now;
  });
}

function parsed(text: string, file: string, audioDigest: string): SaidCorrection[] {
  const found = parseCorrections(text, file);
  if (found.audioDigest === audioDigest) return found.corrections;
  throw new BarwiseError(
    'damaged',
    `${file} speaks of other audio than its name says (audioDigest): give it the name of the digest inside, or move it away.`,
    { file },
  );
}

async function textOf(file: string): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw new BarwiseError(
      'file-unreadable',
      `${file} cannot be read (${code ?? String(cause)}): check its permissions.`,
      {
        file,
        cause,
      },
    );
  }
}

/** Lets one program at a time change a file. */
async function locked<T>(lock: string, work: () => Promise<T>): Promise<T> {
  for (const started = Date.now(); ; await setTimeout(50)) {
    const handle = await open(lock, 'wx').catch((cause: NodeJS.ErrnoException) => {
      if (cause.code === 'EEXIST') return null;
      throw new BarwiseError(
        'cannot-write',
        `${lock} could not be written (${writeTrouble(cause)}): check the folder.`,
        {
          file: lock,
          cause,
        },
      );
    });
    if (handle) {
      await handle.close();
      break;
    }
    const age = await stat(lock).then(
      ({ mtimeMs }) => Date.now() - mtimeMs,
      () => 0,
    );
    if (age > LOCK_STALE_MS) await rm(lock, { force: true });
    else if (Date.now() - started > LOCK_WAIT_MS)
      throw new BarwiseError('cannot-write', `${lock} is held by another program: try again when that is done.`, {
        file: lock,
      });
  }
  try {
    return await work();
  } finally {
    await rm(lock, { force: true });
  }
}
