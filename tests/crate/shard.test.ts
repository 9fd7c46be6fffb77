import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { parseShard } from '../../src/crate/index.js';
import { inShard } from '../../src/crate/shard.js';

const digests = Array.from({ length: 600 }, (_, i) => createHash('sha256').update(`${i}`).digest('hex'));

it('gives every track to exactly one part, and parts of like size', () => {
  const parts = [1, 2, 3].map((index) => digests.filter((d) => inShard(d, { index, of: 3 })));
  expect(parts.flat().sort()).toEqual([...digests].sort());
  for (const part of parts) expect(part.length).toBeGreaterThan(150);
});

it('reads parts, and refuses what is none in a sentence', () => {
  expect(parseShard('2/8')).toEqual({ index: 2, of: 8 });
  for (const wrong of ['0/8', '9/8', '2', 'a/b', '1/0', '-1/4'])
    expect(() => parseShard(wrong), wrong).toThrow(/--shard does not take/);
});
