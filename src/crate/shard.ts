import { createHash } from 'node:crypto';
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { BarwiseError } from '../units/index.js';
import type { CrateFailure } from './failure.js';

/** One part of a crate that is shared out over several runs: part `index` (from 1) of `of`. @experimental */
export interface Shard {
  readonly index: number;
  readonly of: number;
}

/** Reads "2/8". Throws BarwiseError `bad-option`. @experimental */
export function parseShard(text: string): Shard {
  const [, index, of] = /^\s*(\d{1,6})\/(\d{1,6})\s*$/.exec(text)?.map(Number) ?? [];
  if (index >= 1 && of >= 1 && index <= of) return { index, of };
  throw new BarwiseError(
    'bad-option',
    `--shard does not take "${text}": give a part and how many there are, like 2/8.`,
  );
}

/**
 * Whether a track belongs to a part. It goes by the digest of its audio, so that every run, on whatever machine and
 * under whatever name the file lies there, shares out alike, and copies of a track are analysed once.
 */
export function inShard(audioDigest: string, { index, of }: Shard): boolean {
  return Number.parseInt(audioDigest.slice(0, 12), 16) % of === index - 1;
}

/** As many bytes of a file as tell it from others: a broken one may be large. */
const TELLING_BYTES = 1 << 20;

/**
 * Whether a file or folder that holds no readable audio is to be reported by a part. It goes by how it begins and how
 * long it is, and where that cannot be read by its name; so exactly one part of those that see the same file reports it.
 */
export async function failsInShard(file: string, shard: Shard): Promise<boolean> {
  const telling = await beginningOf(file).catch(() => [basename(file).normalize()]);
  const hash = createHash('sha256');
  telling.forEach((part) => hash.update(part));
  return inShard(hash.digest('hex'), shard);
}

/** Of what failed in finding files: what was asked for itself, which every part says, and a part's share of the rest. */
export async function failuresOfShard(
  failures: readonly CrateFailure[],
  asked: readonly string[],
  shard: Shard,
): Promise<CrateFailure[]> {
  const ours = failures.map(async ({ file }) => asked.includes(file) || (await failsInShard(file, shard)));
  const kept = await Promise.all(ours);
  return failures.filter((_, i) => kept[i]);
}

async function beginningOf(path: string): Promise<(string | Uint8Array)[]> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    const { buffer, bytesRead } = await file.read(new Uint8Array(Math.min(size, TELLING_BYTES)), 0);
    return [`${size} `, buffer.subarray(0, bytesRead)];
  } finally {
    await file.close();
  }
}
