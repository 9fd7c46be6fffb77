import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise, clubWav } from './support.js';

let root: string;
const at = (name: string) => join(root, name);
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'barwise-crate-command-'));
  mkdirSync(at('crate'));
  writeFileSync(at('crate/slow.wav'), clubWav(100, 16));
  // A name that a spreadsheet would run, and that would colour a terminal.
  writeFileSync(at('crate/=1+1\u001b[31m.wav'), clubWav(130, 16));
  await barwise(['crate', at('crate')]);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const column = (out: string, name: string) => {
  const [head, ...rows] = out
    .trimEnd()
    .split('\n')
    .map((l) => l.split('\t'));
  return rows.map((row) => row[head.indexOf(name)]);
};

describe('barwise crate', () => {
  it('filters and sorts', async () => {
    const all = await barwise(['crate', at('crate'), '--sort', 'tempo', '--reverse']);
    expect(all.code).toBe(0);
    expect(column(all.out, 'bpm').map((t) => Math.round(Number(t)))).toEqual([130, 100]);
    const some = await barwise(['crate', at('crate'), '--bpm', '95-105']);
    expect(column(some.out, 'title')).toEqual(['slow.wav']);
    expect(some.err).toBe('1 of 2 tracks fit.\n');
    expect(column((await barwise(['crate', at('crate'), '--bpm', '130'])).out, 'title')).toHaveLength(1);
  });

  it('makes CSV that a spreadsheet shows and does not run, and a terminal prints and does not obey', async () => {
    const { out } = await barwise(['crate', at('crate'), '--csv', '--sort', 'tempo']);
    const [head, slow, formula, end] = out.split('\r\n');
    expect(head).toBe('file,title,artist,bpm,key,length,lufs,phrases,sections,irregularities,doubt');
    expect(slow.split(',')[1]).toBe('slow.wav');
    expect(slow.split(',')[6]).toMatch(/^-\d+\.\d$/); // a number stays a number
    expect(formula.split(',')[1]).toMatch(/^'=1\+1 +\[31m\.wav$/);
    expect(end).toBe('');
    const terminal = await barwise(['crate', at('crate')], { columns: 100, env: { NO_COLOR: '1' } });
    expect(terminal.out).not.toContain('\u001b');
    expect(Math.max(...terminal.out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(100);
  });

  it('ends well with a part of the crate that has got no track', async () => {
    const parts = [1, 2, 3, 4, 5, 6, 7].map((index) => barwise(['crate', at('crate'), '--shard', `${index}/7`]));
    const ends = await Promise.all(parts);
    expect(ends.map(({ code }) => code)).toEqual(ends.map(() => 0));
    expect(ends.filter(({ out }) => out === '').length).toBeGreaterThanOrEqual(5);
  });

  it.each([
    [['--bpm', 'fast'], '--bpm does not take "fast"'],
    [['--bpm', '126-120'], '--bpm does not take "126-120"'],
    [['--key', 'H minor'], '--key does not take "H minor"'],
    [['--sort', 'energy'], '--sort does not take "energy"'],
    [['--sections', 'intro,chorus'], '--sections does not take "chorus"'],
    [['--regular', '--odd'], 'A track cannot be both --regular and --odd'],
    [['--shard', '3/2'], '--shard does not take "3/2"'],
  ])('refuses %j in a sentence', async (options, message) => {
    const { code, out, err } = await barwise(['crate', at('crate'), ...options]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});
