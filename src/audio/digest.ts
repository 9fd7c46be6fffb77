import { createHash } from 'node:crypto';
import { throwIfAborted } from '../units/index.js';
import type { ByteRange, ByteReader } from './bytes.js';

const STEP = 1 << 20;

/** SHA-256 (hex) of stretches of a file and bytes beside them, in order. */
export async function digestOf(
  reader: ByteReader,
  parts: readonly (ByteRange | Uint8Array)[],
  signal?: AbortSignal,
): Promise<string> {
  const hash = createHash('sha256');
  for (const part of parts) {
    if (part instanceof Uint8Array) {
      hash.update(part);
      continue;
    }
    for (let done = 0; done < part.length;) {
      throwIfAborted(signal);
      const bytes = await reader.at(part.offset + done, Math.min(STEP, part.length - done));
      if (bytes.length === 0) break;
      hash.update(bytes);
      done += bytes.length;
    }
  }
  return hash.digest('hex');
}
