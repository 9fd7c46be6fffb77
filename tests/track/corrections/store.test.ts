import { mkdtemp, readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  appendCorrections,
  correctionsFile,
  correctionsFolder,
  readCorrections,
  removeCorrection,
  type SaidCorrection,
} from '../../../src/track/index.js';

const DIGEST = 'cd'.repeat(32);
const beat = (time: number): SaidCorrection => ({ kind: 'beat', time, said: null, from: null });

describe('where corrections are kept', () => {
  let folder: string;
  const track = () => ({ audioDigest: DIGEST, file: 'somewhere/track.wav', folder });
  beforeEach(async () => void (folder = await mkdtemp(join(tmpdir(), 'barwise-corrections-'))));
  afterEach(() => rm(folder, { recursive: true, force: true }));

  it('is nothing for a track nobody has spoken of', async () => {
    expect(await readCorrections(DIGEST, join(folder, 'not-there'))).toEqual([]);
  });

  it('keeps every version but the last under another name', async () => {
    await appendCorrections(track(), [beat(1)]);
    const first = await readFile(correctionsFile(DIGEST, folder), 'utf8');
    await appendCorrections(track(), [beat(2)]);
    const previous = correctionsFile(DIGEST, folder).replace('.yaml', '.previous.yaml');
    expect(await readFile(previous, 'utf8')).toBe(first);
    expect(await removeCorrection(track(), 0)).toEqual([beat(2)]);
    expect(await readCorrections(DIGEST, folder)).toEqual([beat(2)]);
    expect((await readdir(folder)).sort()).toEqual([`${DIGEST}.previous.yaml`, `${DIGEST}.yaml`]);
  });

  it('loses no word when several speak at once', async () => {
    await Promise.all(Array.from({ length: 12 }, (_, i) => appendCorrections(track(), [beat(i)])));
    const kept = await readCorrections(DIGEST, folder);
    expect(kept.map((c) => (c.kind === 'beat' ? c.time : NaN)).sort((a, b) => a - b)).toEqual([...Array(12).keys()]);
  });

  it('is not held up by the lock of a program that was killed', async () => {
    const lock = `${correctionsFile(DIGEST, folder)}.lock`;
    await writeFile(lock, '');
    const before = (Date.now() - 60_000) / 1000;
    await utimes(lock, before, before);
    expect(await appendCorrections(track(), [beat(1)])).toEqual([beat(1)]);
  });

  it('is left as it is when it cannot be read', async () => {
    const place = correctionsFile(DIGEST, folder);
    await writeFile(place, 'version: 1\ncorrections: {');
    await expect(appendCorrections(track(), [beat(1)])).rejects.toMatchObject({ code: 'damaged' });
    expect(await readFile(place, 'utf8')).toBe('version: 1\ncorrections: {');
  });

  it('does not take the words about one track for another', async () => {
    await appendCorrections({ ...track(), audioDigest: 'ef'.repeat(32) }, [beat(1)]);
    const text = await readFile(correctionsFile('ef'.repeat(32), folder), 'utf8');
    await writeFile(correctionsFile(DIGEST, folder), text);
    await expect(readCorrections(DIGEST, folder)).rejects.toMatchObject({ code: 'damaged' });
  });

  it('is the folder that is named, else the one of the XDG Base Directory Specification 0.8 on Linux', () => {
    expect(correctionsFolder({ BARWISE_CORRECTIONS: '/mnt/box', HOME: '/home/u' }, 'linux')).toBe('/mnt/box');
    // "If $XDG_DATA_HOME is either not set or empty, a default equal to $HOME/.local/share should be used."
    expect(correctionsFolder({ HOME: '/home/u' }, 'linux')).toBe('/home/u/.local/share/barwise/corrections');
    expect(correctionsFolder({ HOME: '/home/u', XDG_DATA_HOME: '' }, 'linux')).toBe(
      '/home/u/.local/share/barwise/corrections',
    );
    expect(correctionsFolder({ HOME: '/home/u', XDG_DATA_HOME: '/d' }, 'linux')).toBe('/d/barwise/corrections');
  });
});
