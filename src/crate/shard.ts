import { BarwiseError } from '../units/index.js';

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
