import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { listFiles, type CrateOptions } from '../../src/crate/crate.js';
import { isDue } from '../../src/crate/catalogue.js';
import { findTracks } from '../../src/crate/find.js';
import type { CrateSteps } from '../../src/crate/steps.js';
import { analysisIdentity } from '../../src/track/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

let root: string;
beforeEach(() => (root = mkdtempSync(join(tmpdir(), 'barwise-catalogue-'))));
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Steps for which the content of a file is its digest; they note what they had to open and analyse. */
function notingSteps() {
  const [opened, analysed]: [string[], string[]] = [[], []];
  const source = (file: string) => ({ ...sampleAnalysis().source, file, audioDigest: readFileSync(file, 'utf8') });
  const steps: CrateSteps = {
    inspect: (file) => {
      opened.push(file);
      return Promise.resolve(source(file));
    },
    identity: analysisIdentity,
    analyse: (file, options) => {
      analysed.push(file);
      return Promise.resolve({ ...sampleAnalysis(), source: source(file), analysis: analysisIdentity(options) });
    },
    close: () => Promise.resolve(),
  };
  return { steps, opened, analysed };
}
const digest = (letter: string) => letter.repeat(64);
const put = (name: string, letter: string) => {
  writeFileSync(join(root, name), digest(letter));
  return join(root, name);
};
const list = (files: string[], steps: CrateSteps, options: CrateOptions = {}) =>
  listFiles({ files, failures: [], notices: [] }, options, steps);
const catalogue = () => join(root, '.barwise/catalogue.json');

describe('a crate that is listed again', () => {
  it('opens no file and analyses none', async () => {
    const files = [put('a.wav', 'a'), put('b.wav', 'b')];
    const first = await list(files, notingSteps().steps);
    const { steps, opened, analysed } = notingSteps();
    const second = await list(files, steps);
    expect(second.tracks).toEqual(first.tracks);
    expect([opened, analysed]).toEqual([[], []]);
  });

  it('opens a file that changed, and analyses it when its audio did', async () => {
    const files = [put('a.wav', 'a'), put('b.wav', 'b')];
    await list(files, notingSteps().steps);
    put('b.wav', 'c');
    utimesSync(files[1], 5, 5);
    utimesSync(files[0], 5, 5); // touched, but the same
    const { steps, opened, analysed } = notingSteps();
    const { tracks } = await list(files, steps);
    expect(tracks.map((t) => t.source.audioDigest)).toEqual([digest('a'), digest('c')]);
    expect(opened).toEqual(files);
    expect(analysed).toEqual([files[1]]);
  });

  it('analyses nothing when files were renamed or the whole folder was moved', async () => {
    mkdirSync(join(root, 'in'));
    const file = put('in/a.wav', 'a');
    await list([file], notingSteps().steps);
    renameSync(file, join(root, 'in/other.wav'));
    renameSync(join(root, 'in'), join(root, 'moved'));
    const { steps, analysed } = notingSteps();
    const { tracks } = await list([join(root, 'moved/other.wav')], steps);
    expect(analysed).toEqual([]);
    expect(tracks[0].source.file).toBe(join(root, 'moved/other.wav'));
  });

  it('analyses nothing when a file was moved to another folder of the crate, and keeps it there', async () => {
    for (const name of ['in', 'out']) mkdirSync(join(root, name));
    const crate = async () => {
      const { steps, analysed } = notingSteps();
      const { tracks } = await listFiles(await findTracks([root]), {}, steps);
      return { analysed, files: tracks.map((t) => t.source.file) };
    };
    put('in/a.wav', 'a');
    put('in/b.wav', 'b');
    expect((await crate()).analysed).toHaveLength(2);
    renameSync(join(root, 'in/a.wav'), join(root, 'out/first.wav'));
    expect(await crate()).toEqual({ analysed: [], files: [join(root, 'in/b.wav'), join(root, 'out/first.wav')] });
    // From then on the folder knows by itself.
    rmSync(join(root, 'in'), { recursive: true });
    expect((await crate()).analysed).toEqual([]);
  });

  it('takes nothing from another folder that is of another audio, or damaged', async () => {
    for (const name of ['in', 'out']) mkdirSync(join(root, name));
    await list([put('in/a.wav', 'a')], notingSteps().steps);
    const kept = readdirSync(join(root, 'in/.barwise')).find((name) => name !== 'catalogue.json')!;
    writeFileSync(join(root, 'in/.barwise', kept), '{"analysis":{}}');
    const moved = join(root, 'out/a.wav');
    renameSync(join(root, 'in/a.wav'), moved);
    const { steps, analysed } = notingSteps();
    await listFiles(
      { files: [moved], failures: [], notices: [], cacheFolders: [join(root, 'in/.barwise')] },
      {},
      steps,
    );
    expect(analysed).toEqual([moved]);
  });

  it('keeps readings under different constraints apart', async () => {
    const files = [put('a.wav', 'a')];
    const half: CrateOptions = { constraints: { grid: { tempo: 62 } } };
    await list(files, notingSteps().steps);
    const { steps, analysed } = notingSteps();
    await list(files, steps, half);
    expect(analysed).toEqual(files);
    const again = notingSteps();
    await list(files, again.steps);
    await list(files, again.steps, half);
    expect(again.analysed).toEqual([]);
  });

  it('goes on without a catalogue that is damaged or foreign', async () => {
    const files = [put('a.wav', 'a')];
    await list(files, notingSteps().steps);
    for (const text of ['', '{', '[]', '{"version":99,"files":{}}', '{"version":1,"files":{"a.wav":{}}}']) {
      writeFileSync(catalogue(), text);
      const { steps, opened, analysed } = notingSteps();
      expect((await list(files, steps)).tracks, text).toHaveLength(1);
      expect([opened, analysed], text).toEqual([files, []]);
    }
  });

  it('keeps what another run wrote in the meantime', async () => {
    const [a, b] = [put('a.wav', 'a'), put('b.wav', 'b')];
    await Promise.all([list([a], notingSteps().steps), list([b], notingSteps().steps)]);
    await list([a], notingSteps().steps);
    await list([b], notingSteps().steps);
    const { steps, opened } = notingSteps();
    await list([a, b], steps);
    expect(opened).toEqual([]);
  });
});

it('is written down every fifty tracks at first, and not so often that a large crate is all writing', () => {
  const savesAt: number[] = [];
  for (let done = 1; done <= 10_000; done++) if (isDue(done, savesAt.at(-1) ?? 0)) savesAt.push(done);
  expect(savesAt.slice(0, 3)).toEqual([50, 100, 150]);
  // Tracks written in all, each time all of them: two hundred times would be a million.
  expect(savesAt.reduce((sum, tracks) => sum + tracks, 0)).toBeLessThan(120_000);
});

it('analyses only its shard, and names files that hold the same audio', async () => {
  const files = [put('a.wav', 'a'), put('b.wav', 'b'), put('c.wav', 'a'), put('d.wav', 'd')];
  const seen: string[] = [];
  for (const index of [1, 2]) {
    const { tracks } = await list(files, notingSteps().steps, { shard: { index, of: 2 } });
    seen.push(...tracks.map((t) => t.source.file));
  }
  expect(seen.sort()).toEqual(files);
  const { duplicates } = await list(files, notingSteps().steps);
  expect(duplicates).toEqual([[files[0], files[2]]]);
});
