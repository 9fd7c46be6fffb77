import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { trackAnalysisSchema } from '../../src/track/index.js';
import { barwise, clubWav, noiseWav, wavOf } from './support.js';

let root: string;
const at = (name: string) => join(root, name);
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-cli-'));
  mkdirSync(at('crate/sub'), { recursive: true });
  writeFileSync(at('crate/club.wav'), clubWav());
  copyFileSync(at('crate/club.wav'), at('crate/sub/again.wav'));
  writeFileSync(at('crate/bad.mp3'), 'These are words and no music. '.repeat(50));
  writeFileSync(at('silent.wav'), wavOf(new Float32Array(22_050 * 20), 22_050));
  writeFileSync(at('second.wav'), noiseWav(1));
  writeFileSync(at('noise.wav'), noiseWav(30));
  writeFileSync(at('empty.wav'), '');
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** One line, a sentence that ends, the file's name in it, no trace of a program. */
const sentence = (name: string) => new RegExp(`^[^\\n]*${name}[^\\n]*[.]\\n$`);

describe('barwise analyse', () => {
  it('prints fields parted by tabs for another program', async () => {
    const { code, out, err } = await barwise(['analyse', at('crate/club.wav')]);
    expect([code, err]).toEqual([0, '']);
    const [head, row, end] = out.split('\n').map((line) => line.split('\t'));
    expect(head).toEqual(['file', 'title', 'artist', 'bpm', 'key', 'length', 'phrases', 'irregularities', 'doubt']);
    expect(row).toHaveLength(head.length);
    expect([row[0], row[1], row[5]]).toEqual([at('crate/club.wav'), 'club.wav', '1:04']);
    expect(Number(row[3]) / 120).toBeCloseTo(1, 3);
    expect(end).toEqual(['']);
  });

  it('prints a table of at most the width of a terminal', async () => {
    for (const columns of [60, 80, 200]) {
      const { out } = await barwise(['analyse', at('crate/club.wav')], { columns, env: { NO_COLOR: '1' } });
      expect(out.split('\n')[0]).toMatch(/^Track +BPM +Key/);
      expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(columns);
      expect(out).not.toContain('\u001b');
    }
  });

  it('prints one file as its analysis, valid by the schema', async () => {
    const { code, out } = await barwise(['analyse', '--json', at('crate/club.wav')]);
    expect(code).toBe(0);
    expect(trackAnalysisSchema.parse(JSON.parse(out)).source.file).toBe(at('crate/club.wav'));
  });

  it('prints a folder as tracks and failures: one bad file stops none of the others', async () => {
    const { code, out, err } = await barwise(['analyse', '--json', at('crate')]);
    const data = JSON.parse(out) as { tracks: unknown[]; failures: { file: string; code: string; message: string }[] };
    expect(code).toBe(4);
    expect(data.tracks.map((t) => trackAnalysisSchema.parse(t).source.file)).toEqual([
      at('crate/club.wav'),
      at('crate/sub/again.wav'),
    ]);
    expect(data.failures).toEqual([
      { file: at('crate/bad.mp3'), code: 'not-audio', message: expect.any(String) as string },
    ]);
    expect(Object.keys(data.failures[0])).toEqual(['file', 'code', 'message']);
    const [same, failed] = err.trim().split('\n');
    expect(same).toMatch(/^The same audio: .*, .*again\.wav\.$/);
    expect(`${failed}\n`).toMatch(sentence('bad.mp3'));
  });

  it('keeps what it found beside the music, unless told not to', async () => {
    await barwise(['analyse', at('crate/sub/again.wav')]);
    expect(readdirSync(at('crate/sub/.barwise')).sort()).toEqual([
      expect.stringMatching(/^[0-9a-f]{64}\.json$/),
      'catalogue.json',
    ]);
    rmSync(at('crate/sub/.barwise'), { recursive: true });
    await barwise(['analyse', at('crate/sub/again.wav'), '--no-cache']);
    expect(readdirSync(at('crate/sub'))).toEqual(['again.wav']);
  });

  it('counts at the tempo it is told to', async () => {
    const { out } = await barwise(['analyse', '--json', at('crate/club.wav'), '--tempo', '60']);
    expect(trackAnalysisSchema.parse(JSON.parse(out)).tempo.bpm / 60).toBeCloseTo(1, 2);
  });

  it.each([
    ['silent.wav', 'silent'],
    ['second.wav', 'too-short'],
    ['noise.wav', 'no-steady-beat'],
    ['crate/bad.mp3', 'not-audio'],
    ['empty.wav', 'file-empty'],
    ['missing.wav', 'file-missing'],
  ])('says one clear sentence about %s and leaves with 3', async (name, expected) => {
    const both = [at(name), at(name).replace(/([^/]+)$/, './$1')];
    const { code, out, err } = await barwise(['analyse', at(name)]);
    expect(err).toMatch(sentence(name.split('/').at(-1)!));
    expect([code, out]).toEqual([3, '']);
    const json = await barwise(['analyse', '--json', ...both]);
    expect((JSON.parse(json.out) as { failures: { code: string }[] }).failures[0].code).toBe(expected);
  });

  it('stops when it is interrupted', async () => {
    const { code, err } = await barwise(['analyse', at('crate'), '--no-cache'], { signal: AbortSignal.abort() });
    expect(code).toBe(130);
    expect(err).toMatch(/^Stopped/);
  });
});
