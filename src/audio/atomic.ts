import { randomBytes } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { BarwiseError } from '../units/index.js';

/**
 * Writes a file so that its name never holds half of it: the bytes go to a temporary file in the same folder, are
 * flushed, and the file is renamed. Throws BarwiseError `cannot-write`; what stood under the name before then stays.
 */
export async function writeAtomically(file: string, parts: readonly Uint8Array[]): Promise<void> {
  const temporary = join(dirname(file), `.${randomBytes(6).toString('hex')}.tmp`);
  try {
    const handle = await open(temporary, 'wx');
    try {
      for (const part of parts) await handle.writeFile(part);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(temporary, file);
  } catch (cause) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw new BarwiseError('cannot-write', `${file} could not be written (${writeTrouble(cause)}): check the folder.`, {
      file,
      cause,
    });
  }
}

/**
 * The same for a file that another library has to finish, by tags for example: it works on a passing name with the same
 * ending, by which it knows the format. Throws BarwiseError `cannot-write` when it fails; nothing is left behind then.
 */
export async function writeFinished(
  file: string,
  parts: readonly Uint8Array[],
  finish: (passing: string) => void | Promise<void>,
): Promise<void> {
  const passing = join(dirname(file), `.part-${basename(file)}`);
  await writeAtomically(passing, parts);
  try {
    await finish(passing);
    await rename(passing, file);
  } catch (cause) {
    await rm(passing, { force: true });
    throw new BarwiseError('cannot-write', `Cannot write ${file}: check that the folder may be written to.`, {
      file,
      cause,
    });
  }
}

/** Why something could not be written, in a few words. @param cause what the system said, or an error that carries it */
export function writeTrouble(cause: unknown): string {
  if (cause instanceof BarwiseError) return writeTrouble(cause.cause);
  const code = (cause as NodeJS.ErrnoException | undefined)?.code;
  if (code === 'EROFS') return 'it may only be read';
  if (code === 'EDQUOT') return 'the quota is used up';
  if (code === 'ENOENT') return 'its folder does not exist';
  if (code === 'EACCES' || code === 'EPERM') return 'no permission';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EISDIR' || code === 'ENOTEMPTY') return 'a folder has that name';
  return code ?? String(cause);
}
