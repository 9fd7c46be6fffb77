import { open, stat } from 'node:fs/promises';
import { BarwiseError, throwIfAborted } from '../units/index.js';

/** Bytes of a file by position, read through a window so that small steps cost no system call. */
export interface ByteReader {
  readonly size: number;
  /** Up to `length` bytes from `offset`, fewer at the end of the file; valid until the next call. */
  at(offset: number, length: number): Promise<Uint8Array>;
  /** Exactly what `at` gives, as a copy that stays valid. */
  copy(offset: number, length: number): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** A stretch of a file, in bytes. */
export interface ByteRange {
  readonly offset: number;
  readonly length: number;
}

const WINDOW = 1 << 20;

/**
 * Opens a file for reading by position. Throws `file-missing`, `file-unreadable` or `file-empty`; the reading throws
 * `file-unreadable`, and `aborted` once the signal has fired.
 */
export async function openBytes(file: string, signal?: AbortSignal): Promise<ByteReader> {
  const status = await stat(file).catch((cause: unknown) => {
    throw cannotOpen(file, cause);
  });
  if (status.isDirectory()) {
    throw new BarwiseError('file-unreadable', `${file} is a folder: name an audio file in it.`, { file });
  }
  if (!status.isFile()) {
    throw new BarwiseError('file-unreadable', `${file} is not an ordinary file: name an audio file.`, { file });
  }
  if (status.size === 0) {
    throw new BarwiseError('file-empty', `${file} is empty (0 bytes): copy it again.`, { file });
  }
  const handle = await open(file, 'r').catch((cause: unknown) => {
    throw cannotOpen(file, cause);
  });
  let window = new Uint8Array(0);
  let start = 0;

  async function fill(target: Uint8Array, offset: number): Promise<number> {
    throwIfAborted(signal);
    let got = 0;
    while (got < target.length) {
      const { bytesRead } = await handle
        .read(target, got, target.length - got, offset + got)
        .catch((cause: unknown) => {
          const what = `${file} could not be read to its end: check the disk.`;
          throw new BarwiseError('file-unreadable', what, { file, cause });
        });
      if (bytesRead === 0) break;
      got += bytesRead;
    }
    return got;
  }

  return {
    size: status.size,
    async at(offset, length) {
      if (offset < start || offset + length > start + window.length) {
        const wanted = Math.max(0, Math.min(Math.max(length, WINDOW), status.size - offset));
        const next = new Uint8Array(wanted);
        const got = await fill(next, offset);
        window = next.subarray(0, got);
        start = offset;
      }
      return window.subarray(offset - start, offset - start + length);
    },
    async copy(offset, length) {
      const target = new Uint8Array(Math.max(0, Math.min(length, status.size - offset)));
      return target.subarray(0, await fill(target, offset));
    },
    close: () => handle.close(),
  };
}

function cannotOpen(file: string, cause: unknown): BarwiseError {
  const code = (cause as NodeJS.ErrnoException | undefined)?.code;
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return new BarwiseError('file-missing', `${file} does not exist: check the name.`, { file, cause });
  }
  if (code === 'EACCES' || code === 'EPERM') {
    return new BarwiseError('file-unreadable', `${file} may not be read: ask for permission to read it.`, {
      file,
      cause,
    });
  }
  return new BarwiseError('file-unreadable', `${file} could not be opened (${code ?? 'unknown reason'}).`, {
    file,
    cause,
  });
}

/** Four characters (or more) of a byte array as Latin-1 text. */
export function text(bytes: Uint8Array, offset = 0, length = 4): string {
  let out = '';
  for (let i = offset; i < Math.min(offset + length, bytes.length); i++) out += String.fromCharCode(bytes[i]);
  return out;
}

/** A view on the bytes for numbers of known width. */
export function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
