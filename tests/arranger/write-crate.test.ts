import { mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseFile } from 'music-metadata';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { arrangementTruth, DEMO_FORMATS, demoCrate, writeDemoCrate } from '../../src/arranger/index.js';
import type { DemoTrack } from '../../src/arranger/index.js';
import { small } from './small.js';

const tracks = DEMO_FORMATS.map((format, i): DemoTrack => {
  const arrangement = small([{ function: 'main', phrases: [{ bars: 2, layers: ['kick', 'percussion'] }] }], {
    seed: i,
  });
  return { ...demoCrate()[i], name: `short-${format}`, format, arrangement };
});

let folder: string;
beforeAll(async () => void (folder = join(await mkdtemp(join(tmpdir(), 'barwise-crate-')), 'new', 'crate')));
afterAll(() => rm(join(folder, '..', '..'), { recursive: true }));

describe('a written crate', () => {
  test('has a file and its truth for each track, in threads as well as in one', async () => {
    const told: number[] = [];
    const files = await writeDemoCrate(folder, { tracks, threads: 2, onProgress: ({ done }) => told.push(done) });
    expect(files.map(({ written }) => written)).toEqual([true, true, true, true]);
    expect((await readdir(folder)).sort()).toEqual(
      files.flatMap(({ track }) => [`${track.name}.${track.format}`, `${track.name}.truth.json`]).sort(),
    );
    expect(told.at(-1)).toBeCloseTo(1, 9);
    const truth = JSON.parse(await readFile(files[0].truthFile, 'utf8')) as object;
    expect(truth).toMatchObject(arrangementTruth(tracks[0].arrangement));

    const single = join(folder, '..', 'single');
    const again = await writeDemoCrate(single, { tracks, threads: 1 });
    for (const [i, { file, truthFile }] of again.entries()) {
      expect((await readFile(file)).equals(await readFile(files[i].file))).toBe(true);
      expect((await readFile(truthFile)).equals(await readFile(files[i].truthFile))).toBe(true);
    }
  });

  test('carries tags that another library reads back, in every format', async () => {
    for (const track of tracks) {
      const { common, format } = await parseFile(join(folder, `${track.name}.${track.format}`));
      expect(common.title).toBe(track.title);
      expect(common.artist).toBe(track.artist);
      expect(common.album).toBe(track.album);
      expect(common.year).toBe(track.year);
      expect(common.genre).toEqual([track.genre]);
      expect(format.numberOfChannels).toBe(2);
    }
  });

  test('is left alone when it is up to date, and what is missing or changed is made anew', async () => {
    const again = await writeDemoCrate(folder, { tracks });
    expect(again.map(({ written }) => written)).toEqual([false, false, false, false]);

    const edited = again[0].file;
    await writeFile(edited, 'somebody has put something of their own here');
    await rm(again[1].file);
    const other = { ...tracks[2], arrangement: { ...tracks[2].arrangement, bpm: 121 } };
    const third = await writeDemoCrate(folder, { tracks: [tracks[0], tracks[1], other], threads: 1 });
    expect(third.map(({ written }) => written)).toEqual([false, true, true]);
    expect(await readFile(edited, 'utf8')).toBe('somebody has put something of their own here');
  });

  test('stops when asked to, leaving no half file', async () => {
    const controller = new AbortController();
    const stopped = join(folder, '..', 'stopped');
    const run = { signal: controller.signal, onProgress: () => controller.abort() };
    await expect(writeDemoCrate(stopped, { tracks, threads: 1, ...run })).rejects.toMatchObject({ code: 'aborted' });
    expect((await readdir(stopped)).filter((name) => name.startsWith('.'))).toEqual([]);
    await expect(writeDemoCrate(stopped, { tracks, threads: 2, ...run })).rejects.toMatchObject({ code: 'aborted' });
  });

  test('says in one sentence when the folder cannot be made', async () => {
    const blocked = join(folder, '..', 'blocked');
    await writeFile(blocked, '');
    await expect(writeDemoCrate(join(blocked, 'crate'), { tracks })).rejects.toMatchObject({ code: 'cannot-write' });
    expect((await stat(blocked)).isFile()).toBe(true);
  });
});
