import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise } from './support.js';

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-usage-'));
  writeFileSync(join(root, 'mine.ipynb'), '{"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}');
  writeFileSync(join(root, 'letter.pdf'), 'Dear Gull');
  writeFileSync(join(root, 'home.html'), '<!doctype html><p>my own page');
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('barwise --help', () => {
  it('begins with examples and ends with the exit codes', async () => {
    const { code, out, err } = await barwise(['--help']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Examples:\n {2}barwise analyse/);
    for (const exit of ['0', '1', '2', '3', '4', '130']) expect(out).toMatch(new RegExp(`^  ${exit} `, 'm'));
  });

  it.each(['analyse', 'cards', 'show', 'notebook'])('has examples for %s', async (command) => {
    const { code, out } = await barwise([command, '--help']);
    expect(code).toBe(0);
    expect(out).toMatch(new RegExp(`^Examples?:\n  barwise ${command} `));
  });

  it('tells its version, that of the package', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect(await barwise(['--version'])).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });
});

describe('wrong usage', () => {
  it.each([
    ['an unknown command', ['analize'], /analize.*analyse.*--help/],
    ['an unknown option', ['analyse', 'x.wav', '--jsom'], /--jsom.*--json.*barwise analyse --help/],
    ['no file', ['analyse'], /path.*barwise analyse --help/],
    ['a range upside down', ['analyse', 'x.wav', '--tempo-range', '100-80'], /--tempo-range.*"100-80".*80-100/],
    ['a range of one', ['analyse', 'x.wav', '--tempo-range', '100'], /"100".*80-100/],
    ['a tempo in words', ['analyse', 'x.wav', '--tempo', 'fast'], /--tempo.*"fast".*20 to 400/],
    ['a tempo nobody counts', ['analyse', 'x.wav', '--tempo', '9999'], /"9999"/],
    ['no workers', ['analyse', 'x.wav', '--jobs', '0'], /--jobs.*"0"/],
    ['cards without a place', ['cards', 'x.wav'], /--out/],
    ['cards that are no PDF', ['cards', 'x.wav', '--out', 'cards.txt'], /cards\.txt.*\.pdf/],
    ['unknown paper', ['cards', 'x.wav', '--out', 'c.pdf', '--paper', 'B7'], /"B7".*A6/],
    ['a page that is no page', ['show', 'x.wav', '--out', 'x.wav'], /x\.wav.*\.html/],
    ['an unknown notebook', ['notebook', 'no-such'], /no-such.*inspect-track/],
    ['a parameter without a value', ['notebook', 'inspect-track', '-p', 'file'], /"file".*name=value/],
  ])('says one sentence about %s and leaves with 2', async (_, argv, pattern) => {
    const { code, out, err } = await barwise(argv);
    expect(err).toMatch(pattern);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect([code, out]).toEqual([2, '']);
  });

  it('runs no notebook over itself', async () => {
    const file = join(root, 'mine.ipynb');
    const { code, err } = await barwise(['notebook', file, '--out', file]);
    expect(code).toBe(2);
    expect(err).toMatch(/is the notebook itself.*another name/);
  });

  it('never writes over a file that somebody else made', async () => {
    for (const [command, name] of [
      ['cards', 'letter.pdf'],
      ['show', 'home.html'],
    ]) {
      const before = readFileSync(join(root, name), 'utf8');
      const { code, err } = await barwise([command, 'x.wav', '--out', join(root, name)]);
      expect(code).toBe(2);
      expect(err).toMatch(/was not made by Barwise: give another name/);
      expect(readFileSync(join(root, name), 'utf8')).toBe(before);
    }
  });
});
