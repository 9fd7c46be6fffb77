import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jamsBeats, readJams, readMidi } from '../../src/exchange/index.js';
import { barwise, clubWav } from './support.js';

let root: string;
const at = (name: string) => join(root, name);
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'barwise-export-'));
  mkdirSync(at('crate/more'), { recursive: true });
  writeFileSync(at('crate/one.wav'), clubWav(110, 12));
  writeFileSync(at('crate/more/one.wav'), clubWav(130, 12));
  await barwise(['analyse', at('crate')]);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('barwise export', () => {
  it('writes a file for every track, also where two have one name', async () => {
    for (const [format, ending] of [
      ['jams', 'jams'],
      ['midi', 'mid'],
    ]) {
      const { code, out } = await barwise(['export', at('crate'), '--format', format, '--out', at(format)]);
      expect(code).toBe(0);
      expect(out.trimEnd().split('\n').sort()).toEqual(
        [`one-2.${ending}`, `one.${ending}`].map((n) => at(`${format}/${n}`)),
      );
    }
    const jams = jamsBeats(readJams(JSON.parse(readFileSync(at('jams/one.jams'), 'utf8'))))!;
    const midi = readMidi(readFileSync(at('midi/one.mid')));
    for (const beat of jams.beats) expect(Math.min(...midi.beats.map((t) => Math.abs(t - beat)))).toBeLessThan(1e-4);
  });

  it('writes tables of a whole crate, to the screen or a file', async () => {
    const { out } = await barwise(['export', at('crate'), '--format', 'csv', '--table', 'phrases']);
    const [head, ...rows] = out.trimEnd().split('\r\n');
    expect(head).toBe('track,number,startBar,endBar,start,end,bars,regular,confidence');
    expect(new Set(rows.map((r) => r.split(',')[0])).size).toBe(2);
    const file = at('beats.jsonl');
    expect((await barwise(['export', at('crate'), '--format', 'jsonl', '--table', 'beats', '--out', file])).out).toBe(
      `${file}\n`,
    );
    expect(Object.keys(JSON.parse(readFileSync(file, 'utf8').split('\n')[0]) as object)).toContain('groupBar');
  });

  it('writes the one track into the file that is named, and refuses one file for two tracks', async () => {
    const { code, out } = await barwise(['export', at('crate/one.wav'), '--format', 'midi', '--out', at('named.mid')]);
    expect([code, out]).toEqual([0, `${at('named.mid')}\n`]);
    expect(readMidi(readFileSync(at('named.mid'))).beats.length).toBeGreaterThan(10);
    const two = await barwise(['export', at('crate'), '--format', 'midi', '--out', at('both.mid')]);
    expect(two.code).toBe(2);
    expect(two.err).toContain('give --out a folder');
    expect(existsSync(at('both.mid'))).toBe(false);
  });

  it('leaves what it did not make', async () => {
    mkdirSync(at('mine'));
    writeFileSync(at('mine/one.mid'), 'my own words');
    const { code, err } = await barwise(['export', at('crate'), '--format', 'midi', '--out', at('mine')]);
    expect(code).toBe(4);
    expect(err).toMatch(/one\.mid is there already and was not made by Barwise/);
    expect(readFileSync(at('mine/one.mid'), 'utf8')).toBe('my own words');
    expect(existsSync(at('mine/one-2.mid'))).toBe(true);
  });

  it.each([
    [['--format', 'xml'], '--format does not take "xml"'],
    [['--format', 'csv', '--table', 'chords'], '--table does not take "chords"'],
    [['--format', 'midi', '--table', 'beats'], '--table goes with csv and jsonl only'],
    [['--format', 'csv', '--out', 'a.txt'], 'cannot be called a.txt'],
  ])('refuses %j in a sentence', async (options, message) => {
    const { code, err } = await barwise(['export', at('crate'), ...options]);
    expect(code).toBe(2);
    expect(err).toContain(message);
  });
});
