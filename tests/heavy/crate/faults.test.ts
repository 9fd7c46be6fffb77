import { execFileSync, spawn, spawnSync, type SpawnOptions } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseTrackAnalysis } from '../../../src/index.js';
import { clubWav } from '../../cli/support.js';

/** The command as built; `npm run build` comes first. */
const COMMAND = ['dist/src/cli/main.js'];
const NOBODY = 65_534;
const root = process.getuid?.() === 0;

let folder: string;
let music: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'barwise-faults-'));
  chmodSync(folder, 0o755);
  music = join(folder, 'music');
  mkdirSync(music);
  for (const bpm of [100, 110, 120, 130]) writeFileSync(join(music, `${bpm}.wav`), clubWav(bpm, 12));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function barwise(argv: readonly string[], options: SpawnOptions = {}): Promise<Outcome> {
  const child = spawn(process.execPath, [...COMMAND, ...argv], { ...options, stdio: ['ignore', 'pipe', 'pipe'] });
  let [out, err] = ['', ''];
  child.stdout.on('data', (data: Buffer) => (out += data.toString()));
  child.stderr.on('data', (data: Buffer) => (err += data.toString()));
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, out, err })));
}

/** Four tracks were listed, whatever else went wrong. */
function expectAllListed({ code, out }: Outcome): void {
  expect(code).toBe(0);
  expect(out.trimEnd().split('\n')).toHaveLength(5);
}

/** As somebody who may read the music and the program and nothing more, if that can be had here. */
const asNobody: SpawnOptions = { uid: NOBODY, gid: NOBODY, env: { ...process.env, HOME: '/nonexistent' } };
const canBeNobody = root && spawnSync(process.execPath, [...COMMAND, '--version'], asNobody as object).status === 0;

const hasParallel = /GNU parallel/.test(spawnSync('parallel', ['--version'], { encoding: 'utf8' }).stdout ?? '');

describe('what goes wrong around the program', () => {
  it.skipIf(!canBeNobody)('a folder without permission to write costs a sentence and only time', async () => {
    const outcome = await barwise(['crate', music], asNobody);
    expectAllListed(outcome);
    expect(outcome.err).toMatch(/^Finished analyses cannot be kept in .*\.barwise \(no permission\): the next run/);
    expect(outcome.err.trimEnd().split('\n')).toHaveLength(1);
  });

  it.skipIf(!canBeNobody)('a file without permission to read costs a sentence, and the others go on', async () => {
    const closed = join(folder, 'closed');
    cpSync(music, closed, { recursive: true });
    chmodSync(join(closed, '110.wav'), 0);
    const { code, out, err } = await barwise(['crate', closed, '--no-cache'], asNobody);
    expect(code).toBe(4);
    expect(out.trimEnd().split('\n')).toHaveLength(4);
    expect(err).toMatch(/^[^\n]*110\.wav may not be read: ask for permission[^\n]*\n$/);
  });

  it.skipIf(!root)('a full disk costs a sentence, leaves no half file, and what was kept stays', async () => {
    const disk = join(folder, 'disk');
    mkdirSync(disk);
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=12k', 'tmpfs', disk]);
    try {
      const outcome = await barwise(['crate', music, '--cache-folder', disk]);
      expectAllListed(outcome);
      expect(outcome.err).toMatch(/^Finished analyses cannot be kept in .* \(the disk is full\): the next run/);
      const kept = readdirSync(disk);
      expect(kept.filter((name) => name.endsWith('.tmp'))).toEqual([]);
      for (const name of kept.filter((n) => /^[0-9a-f]{64}/.test(n)))
        expect(() => parseTrackAnalysis(JSON.parse(readFileSync(join(disk, name), 'utf8')))).not.toThrow();
    } finally {
      execFileSync('umount', [disk]);
    }
  });

  it('two runs on one crate at once both finish, and the third has nothing to do', async () => {
    const crate = join(folder, 'shared');
    cpSync(music, crate, { recursive: true });
    const both = await Promise.all([barwise(['crate', crate]), barwise(['crate', crate])]);
    both.forEach(expectAllListed);
    expect(both[0].out).toBe(both[1].out);
    const times = () => readdirSync(join(crate, '.barwise')).sort();
    const before = times();
    expectAllListed(await barwise(['crate', crate]));
    expect(times()).toEqual(before);
  });

  it('parts of a crate done by separate runs into separate folders come together by copying', async () => {
    const [one, two, all] = ['part-1', 'part-2', 'together'].map((name) => join(folder, name));
    const parts = await Promise.all([
      barwise(['crate', music, '--shard', '1/2', '--cache-folder', one]),
      barwise(['crate', music, '--shard', '2/2', '--cache-folder', two]),
    ]);
    const rows = parts.flatMap(({ out }) => out.trimEnd().split('\n').slice(1));
    expect(rows.filter(Boolean)).toHaveLength(4);
    for (const part of [one, two]) cpSync(part, all, { recursive: true });
    const whole = await barwise(['crate', music, '--cache-folder', all]);
    expectAllListed(whole);
    expect(whole.out.split('\n').slice(1).filter(Boolean).sort()).toEqual(rows.filter(Boolean).sort());
    expect(readdirSync(all).filter((name) => /^[0-9a-f]{64}/.test(name))).toHaveLength(4);
  });

  it.skipIf(!hasParallel)(
    'GNU parallel runs the parts of a crate as processes of their own, on one folder',
    async () => {
      const crate = join(folder, 'parallel');
      cpSync(music, crate, { recursive: true });
      writeFileSync(join(crate, 'bad.mp3'), 'not music at all');
      const parts = ['crate', crate, '--jobs', '1', '--shard', '{}/3', ':::', '1', '2', '3'];
      const run = spawnSync('parallel', ['-j', '2', process.execPath, ...COMMAND, ...parts], { encoding: 'utf8' });
      // The number of parts that did not leave with 0: one of them reports the file that is no music.
      expect(run.status, run.stderr).toBe(1);
      expect(run.stderr.match(/bad\.mp3/g)).toHaveLength(1);
      const rows = run.stdout.split('\n').filter((line) => line.includes('.wav'));
      const whole = await barwise(['crate', crate]);
      expect(whole.out.split('\n').filter((line) => line.includes('.wav'))).toEqual(rows.sort());
      expect(readdirSync(join(crate, '.barwise')).filter((name) => /^[0-9a-f]{64}/.test(name))).toHaveLength(4);
    },
  );

  it('Ctrl-C stops in good order, and the next run goes on where it was', async () => {
    const crate = join(folder, 'interrupted');
    cpSync(music, crate, { recursive: true });
    const child = spawn(process.execPath, [...COMMAND, 'crate', crate, '--jobs', '1'], { stdio: 'ignore' });
    const cache = join(crate, '.barwise');
    const kept = () => {
      try {
        return readdirSync(cache).filter((name) => /^[0-9a-f]{64}/.test(name)).length;
      } catch {
        return 0;
      }
    };
    while (kept() === 0) await new Promise((resolve) => setTimeout(resolve, 10));
    child.kill('SIGINT');
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect(code).toBe(130);
    const before = kept();
    expect(before).toBeLessThan(4);
    expectAllListed(await barwise(['crate', crate]));
    expect(kept()).toBe(4);
  });
});
