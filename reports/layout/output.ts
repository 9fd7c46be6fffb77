import { randomBytes } from 'node:crypto';
import { open, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Writable } from 'node:stream';
import { BarwiseError } from '../../src/index.js';
import { isOwn } from './signature.js';

/** Where a piece goes: a file by name, or a stream, which is ended. @public */
export type PieceTarget = string | Writable;

/** Refuses early to replace a file that Barwise did not make. Throws BarwiseError `cannot-write`. */
export async function checkTarget(target: PieceTarget, overwrite: boolean): Promise<void> {
  if (typeof target !== 'string' || overwrite) return;
  const before = await readFile(target).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT') return null;
    throw writeError(target, cause);
  });
  if (before === null || isOwn(before)) return;
  const advice = 'choose another name, or ask for it to be overwritten';
  throw new BarwiseError('cannot-write', `${target} exists and is not as Barwise made it: ${advice}.`, {
    file: target,
  });
}

/** Hands the bytes over; a file gets its name only when it is whole. Throws BarwiseError `cannot-write`. */
export async function deliver(bytes: Buffer, target: PieceTarget): Promise<void> {
  if (typeof target === 'string') return writeWhole(target, bytes);
  await new Promise<void>((resolve, reject) => {
    target.once('error', reject);
    target.end(bytes, () => resolve());
  }).catch((cause: unknown) => {
    throw new BarwiseError('cannot-write', 'The stream for the piece could not be written to.', { cause });
  });
}

async function writeWhole(file: string, bytes: Buffer): Promise<void> {
  const temporary = join(dirname(file), `.${randomBytes(6).toString('hex')}.tmp`);
  try {
    const handle = await open(temporary, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(temporary, file);
  } catch (cause) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw writeError(file, cause);
  }
}

function writeError(file: string, cause: unknown): BarwiseError {
  const code = (cause as NodeJS.ErrnoException).code ?? String(cause);
  const why: Record<string, string> = {
    ENOENT: 'its folder does not exist',
    EACCES: 'permission denied',
    EPERM: 'permission denied',
    EISDIR: 'a folder has that name',
    ENOSPC: 'the disk is full',
  };
  const message = `${file} cannot be written (${why[code] ?? code}): choose another place or name.`;
  return new BarwiseError('cannot-write', message, { file, cause });
}
