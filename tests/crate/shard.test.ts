import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { listCrate, parseShard } from '../../src/crate/index.js';
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

/** A folder of files that are no music: one can only be told by its name, which is no text, the others by their bytes. */
function unreadable(prefix: string): string {
  const folder = mkdtempSync(join(tmpdir(), prefix));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (let i = 0; i < 20; i++) writeFileSync(join(folder, `${i}.wav`), `no music ${i}`);
  writeFileSync(Buffer.concat([Buffer.from(join(folder, 'not text ')), Buffer.from([0xff]), Buffer.from('.wav')]), '');
  return folder;
}

it.each([true, false])('has every file that does not open reported by exactly one part (cache: %s)', async (cache) => {
  const [here, there] = [unreadable('barwise-shard-'), unreadable('barwise-elsewhere-')];
  const part = async (folder: string, index: number) => {
    const { failures } = await listCrate([folder], { cache, workers: 1, shard: { index, of: 3 } });
    return failures.map((f) => basename(f.file)).sort();
  };
  const whole = (await listCrate([here], { cache, workers: 1 })).failures.map((f) => basename(f.file)).sort();
  const parts = await Promise.all([1, 2, 3].map((index) => part(here, index)));
  expect(whole.length).toBe(21);
  expect(parts.flat().sort()).toEqual(whole);
  for (const one of parts) expect(one.length).toBeGreaterThan(0);
  // The same wherever the crate lies.
  expect(await part(there, 2)).toEqual(parts[1]);
});

it('has every part say that what was asked for is not there', async () => {
  for (const index of [1, 2]) {
    const { failures } = await listCrate(['/nowhere/at/all'], { shard: { index, of: 2 } });
    expect(failures.map((f) => f.code)).toEqual(['file-missing']);
  }
});
