import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { analyseFiles, type CrateOptions } from '../../src/crate/crate.js';
import { openSteps, type CrateSteps } from '../../src/crate/steps.js';
import { defaultWorkers } from '../../src/crate/workers.js';
import { analysisIdentity } from '../../src/track/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

let root: string;
beforeEach(() => (root = mkdtempSync(join(tmpdir(), 'barwise-crate-'))));
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Steps that count how often they work. The digest is made from the last letter of the name. */
/** @param together nobody ends before so many have worked at once (or two seconds have passed) */
function countingSteps(bad: Record<string, Error> = {}, together = 1) {
  const analysed: string[] = [];
  let [working, most] = [0, 0];
  const steps: CrateSteps = {
    inspect: (file) => {
      const audioDigest = file.at(-1)!.repeat(64);
      return Promise.resolve({
        ...sampleAnalysis().source,
        file,
        audioDigest,
        tags: { ...sampleAnalysis().source.tags, title: file },
      });
    },
    identity: analysisIdentity,
    async analyse(file, options) {
      most = Math.max(most, ++working);
      for (let waited = 0; waited === 0 || (most < together && waited < 2000); waited += 5)
        await new Promise((resolve) => setTimeout(resolve, 5));
      working--;
      analysed.push(file);
      if (bad[file]) throw bad[file];
      const { source, ...rest } = sampleAnalysis();
      return {
        ...rest,
        source: { ...source, file, audioDigest: file.at(-1)!.repeat(64) },
        analysis: analysisIdentity(options),
      };
    },
    close: () => Promise.resolve(),
  };
  return { steps, analysed, most: () => most };
}
const files = (...names: string[]) => names.map((name) => join(root, name));
const run = (names: string[], steps: CrateSteps, options: CrateOptions = {}) =>
  analyseFiles({ files: files(...names), failures: [], notices: [] }, options, steps);
const cached = () => readdirSync(join(root, '.barwise'));

describe('analyseCrate', () => {
  it('gives the tracks in the order of their files, however they finish', async () => {
    const { steps, most } = countingSteps({}, 3);
    const { tracks, failures } = await run(['a', 'b', 'c', 'd', 'e'], steps, { workers: 3 });
    expect(tracks.map((t) => t.source.file)).toEqual(files('a', 'b', 'c', 'd', 'e'));
    expect(failures).toEqual([]);
    expect(most()).toBe(3);
  });

  it('lets no bad file stop the others, and tells the file’s faults from the program’s', async () => {
    const bad = {
      [join(root, 'b')]: new BarwiseError('damaged', 'b is damaged: copy it again.'),
      [join(root, 'c')]: new TypeError('x is\nnot a function'),
    };
    const { tracks, failures } = await run(['a', 'b', 'c', 'd'], countingSteps(bad).steps, { workers: 2 });
    expect(tracks.map((t) => t.source.file)).toEqual(files('a', 'd'));
    expect(failures.map((f) => f.code)).toEqual(['damaged', 'internal']);
    expect(failures[1].message).toMatch(/c made the program fail \(x is not a function\): please report it/);
  });

  it('reports progress from 0 to 1 without a step back, and every track once', async () => {
    const [shares, done]: [number[], number[]] = [[], []];
    const options: CrateOptions = {
      workers: 2,
      onProgress: (p) => shares.push(p.done),
      onTrack: (t) => done.push(t.done),
    };
    await run(['a', 'b', 'c'], countingSteps().steps, options);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
    expect(done).toEqual([1, 2, 3]);
  });

  it('takes a file that disappears after it was found for a failure, and goes on', async () => {
    const gone = join(root, 'gone.wav');
    const steps = openSteps(1);
    const { tracks, failures } = await analyseFiles({ files: [gone], failures: [], notices: [] }, {}, steps);
    await steps.close();
    expect([tracks, failures.map((f) => f.code)]).toEqual([[], ['file-missing']]);
    expect(failures[0].message).toMatch(/gone\.wav does not exist/);
  });

  it('says once that finished analyses cannot be kept, and goes on', async () => {
    writeFileSync(join(root, '.barwise'), 'a file where the folder should be');
    const { tracks, notices } = await run(['a', 'b'], countingSteps().steps);
    expect(tracks).toHaveLength(2);
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatch(
      /^Finished analyses cannot be kept in .*\.barwise \(.+\): the next run will take as long/,
    );
  });

  it('stops when it is told to, and keeps what was finished', async () => {
    const controller = new AbortController();
    const { steps, analysed } = countingSteps();
    const stopped = run(['a', 'b', 'c', 'd'], steps, { signal: controller.signal, onTrack: () => controller.abort() });
    await expect(stopped).rejects.toMatchObject({ code: 'aborted' });
    expect(analysed).toHaveLength(1);
    expect(cached()).toHaveLength(1);
  });
});

describe('the cache', () => {
  it('keeps a file a track by its digest, and analyses nothing twice', async () => {
    const { steps, analysed } = countingSteps();
    await run(['a', 'b'], steps);
    const again = await run(['a', 'b'], steps);
    expect(analysed).toHaveLength(2);
    expect(again.tracks).toHaveLength(2);
    expect(cached().sort()).toEqual([`${'a'.repeat(64)}.json`, `${'b'.repeat(64)}.json`]);
  });

  it('shows the name and the tags a file has now, not those it had', async () => {
    const { steps, analysed } = countingSteps();
    await run(['old-a'], steps);
    const { tracks } = await run(['new-a'], steps);
    expect(analysed).toHaveLength(1);
    expect(tracks[0].source.file).toBe(join(root, 'new-a'));
    expect(tracks[0].source.tags.title).toBe(join(root, 'new-a'));
  });

  it('holds the readings under other constraints beside each other', async () => {
    const { steps, analysed } = countingSteps();
    const slow = { constraints: { grid: { tempo: 87 } } };
    await run(['a'], steps);
    await run(['a'], steps, slow);
    await run(['a'], steps);
    await run(['a'], steps, slow);
    expect(analysed).toHaveLength(2);
    expect(cached()).toHaveLength(2);
  });

  it('takes nothing from another version, from half a file or from a foreign one, and makes it good', async () => {
    const { steps, analysed } = countingSteps();
    await run(['a'], steps);
    const file = join(root, '.barwise', cached()[0]);
    const good = readFileSync(file, 'utf8');
    const other = good.replace(/"version":"[^"]*"/, '"version":"0.0.0-other"');
    for (const [i, text] of [
      other,
      good.slice(0, good.length / 2),
      '',
      '[]',
      good.replaceAll('a'.repeat(64), 'b'.repeat(64)),
    ].entries()) {
      writeFileSync(file, text);
      await run(['a'], steps);
      expect(analysed).toHaveLength(i + 2);
      expect(readFileSync(file, 'utf8')).toBe(good);
    }
  });

  it('goes where it is told, or nowhere', async () => {
    const { steps, analysed } = countingSteps();
    const cacheFolder = join(root, 'elsewhere');
    await run(['a'], steps, { cacheFolder });
    expect(readdirSync(cacheFolder)).toHaveLength(1);
    await run(['a'], steps, { cache: false });
    await run(['a'], steps, { cache: false });
    expect(analysed).toHaveLength(3);
    expect(readdirSync(root)).toEqual(['elsewhere']);
  });

  it('does without where it cannot write', async () => {
    writeFileSync(join(root, '.barwise'), 'a file where the folder should be');
    const { tracks, failures } = await run(['a'], countingSteps().steps);
    expect([tracks.length, failures.length]).toEqual([1, 0]);
  });
});

describe('defaultWorkers', () => {
  it('is one a core, at most half the memory, at least one', () => {
    expect(defaultWorkers(4, 32e9)).toBe(4);
    expect(defaultWorkers(16, 8e9)).toBe(4);
    expect(defaultWorkers(2, 1e9)).toBe(1);
  });
});
