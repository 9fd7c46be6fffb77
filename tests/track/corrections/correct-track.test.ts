import { cp, mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analyseCrate, listCrate } from '../../../src/crate/index.js';
import {
  analyseTrack,
  correctionsFile,
  correctTrack,
  inspectTrack,
  readCorrections,
  undoCorrection,
} from '../../../src/track/index.js';
import { clubWav } from '../../cli/support.js';

describe('correctTrack', { timeout: 240_000 }, () => {
  let folder: string;
  let file: string;
  let digest: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'barwise-correct-file-'));
    file = join(folder, 'track.wav');
    await writeFile(file, clubWav(120, 12));
    digest = (await inspectTrack(file)).audioDigest;
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));
  const options = () => ({ correctionsFolder: join(folder, 'corrections') });
  const said = () => readCorrections(digest, options().correctionsFolder);

  it('shows what would change and writes nothing when it is only asked', async () => {
    const { changes, after } = await correctTrack(file, [{ kind: 'tempo', bpm: 60 }], { ...options(), dryRun: true });
    expect(changes.find((c) => c.what === 'tempo')).toEqual({ what: 'tempo', before: '120 BPM', after: '60 BPM' });
    expect(after.tempo.bpm).toBeCloseTo(60, 1);
    expect(await said()).toEqual([]);
  });

  it('is honoured by every later analysis, wherever the file has gone and whatever is cached, until it is taken back', async () => {
    const music = join(folder, 'music');
    await mkdir(music);
    await cp(file, join(music, 'a.wav'));
    const crate = { ...options(), workers: 1 };
    const bpm = async () => [
      (await analyseCrate([music], crate)).tracks[0].tempo.bpm,
      (await listCrate([music], crate)).tracks[0].tempo.bpm,
      (await analyseCrate([music], { ...crate, cache: false })).tracks[0].tempo.bpm,
    ];
    for (const value of await bpm()) expect(value).toBeCloseTo(120, 1);
    await correctTrack(file, [{ kind: 'tempo', bpm: 60 }], options());
    for (const value of await bpm()) expect(value).toBeCloseTo(60, 1);
    await mkdir(join(music, 'deeper'));
    await rename(join(music, 'a.wav'), join(music, 'deeper', 'another name.wav'));
    for (const value of await bpm()) expect(value).toBeCloseTo(60, 1);
    expect((await analyseTrack(join(music, 'deeper', 'another name.wav'), options())).tempo.bpm).toBeCloseTo(60, 1);
    expect((await analyseCrate([music], { ...crate, corrections: false })).tracks[0].tempo.bpm).toBeCloseTo(120, 1);
    const { changes } = await undoCorrection(file, undefined, options());
    expect(changes[0]).toEqual({ what: 'tempo', before: '60 BPM', after: '120 BPM' });
    for (const value of await bpm()) expect(value).toBeCloseTo(120, 1);
    expect(await said()).toEqual([]);
  });

  it('refuses what contradicts what was said before, and names both', async () => {
    await correctTrack(file, [{ kind: 'tempo', bpm: 120 }], options());
    await expect(correctTrack(file, [{ kind: 'tempo', bpm: 60 }], options())).rejects.toMatchObject({
      code: 'contradiction',
      message:
        'track.wav: that the tempo is 60 BPM contradicts what was said before, that the tempo is 120 BPM: take that back first (--undo 1) or leave it so.',
    });
    expect(await said()).toHaveLength(1);
    await undoCorrection(file, 1, options());
  });

  it('refuses what only the music shows to be impossible together', async () => {
    const [on, off] = [10, 15.25];
    await correctTrack(file, [{ kind: 'beat', time: on }], options());
    await expect(correctTrack(file, [{ kind: 'beat', time: off }], options())).rejects.toMatchObject({
      code: 'contradiction',
      message: expect.stringMatching(/a beat falls at .* contradicts .* a beat falls at /) as string,
    });
    await undoCorrection(file, 1, options());
  });

  it('refuses a tempo at which the track cannot be counted', async () => {
    await expect(correctTrack(file, [{ kind: 'tempo', bpm: 391 }], options())).rejects.toMatchObject({
      code: 'contradiction',
      message: expect.stringContaining('the nearest tempo that fits what is heard is') as string,
    });
    expect(await said()).toEqual([]);
  });

  it('says so when there is nothing to take back', async () => {
    await expect(undoCorrection(file, undefined, options())).rejects.toMatchObject({ code: 'bad-option' });
  });

  it('fails for one file only when the corrections of one file cannot be read', async () => {
    await writeFile(correctionsFile(digest, options().correctionsFolder), 'version: 1\nrubbish: 2\n');
    const { failures } = await analyseCrate([file], { ...options(), cache: false, workers: 1 });
    expect(failures).toMatchObject([
      { code: 'damaged', message: expect.stringMatching(/\.yaml, line \d: /) as string },
    ]);
    await rm(correctionsFile(digest, options().correctionsFolder));
  });
});
