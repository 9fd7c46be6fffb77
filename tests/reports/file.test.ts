import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { printCards } from '../../reports/index.js';
import { loadOptional } from '../../reports/layout/fonts.js';
import { BarwiseError } from '../../src/units/index.js';
import { VARIANTS } from '../ladder/variants.js';
import { print } from './print.js';
import { readPdf } from './read-pdf.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-cards-'));
});
afterAll(() => rm(folder, { recursive: true }));

const cards = () => [VARIANTS.plain(), VARIANTS.eights()];
const codeOf = (promise: Promise<unknown>) =>
  promise.then(
    () => 'nothing thrown',
    (error: unknown) => (error instanceof BarwiseError ? error.code : String(error)),
  );

test('the same cards are the same bytes', async () => {
  const [one, other] = [await print(cards()), await print(cards())];
  expect(one.bytes.equals(other.bytes)).toBe(true);
  expect(one.bytes.equals((await print([VARIANTS.waltz()])).bytes)).toBe(false);
});

test('each card has a bookmark, in order', async () => {
  const { bookmarks } = await readPdf((await print(cards())).bytes);
  expect(bookmarks).toEqual(['The Ferry House Workshop: Slack Water', 'The Ferry House Workshop: Eight by Eight']);
});

test('a card of ours is made anew, and nothing else is left in the folder', async () => {
  const file = join(folder, 'ours.pdf');
  await printCards(cards(), file);
  await printCards([VARIANTS.waltz()], file);
  expect((await readPdf(await readFile(file))).text).toContain('Three to the Bar');
  expect(await readdir(folder)).toEqual(['ours.pdf']);
});

describe('a file is never lost', () => {
  test('that Barwise did not make', async () => {
    const file = join(folder, 'notes.pdf');
    await writeFile(file, 'my own notes');
    expect(await codeOf(printCards(cards(), file))).toBe('cannot-write');
    expect(await readFile(file, 'utf8')).toBe('my own notes');
    await printCards(cards(), file, { overwrite: true });
    expect((await readFile(file)).subarray(0, 5).toString()).toBe('%PDF-');
  });

  test('that somebody wrote into after Barwise had made it', async () => {
    const file = join(folder, 'annotated.pdf');
    await printCards(cards(), file);
    const annotated = Buffer.concat([
      await readFile(file),
      Buffer.from('9 0 obj\n(note)\nendobj\nstartxref\n0\n%%EOF\n'),
    ]);
    await writeFile(file, annotated);
    expect(await codeOf(printCards(cards(), file))).toBe('cannot-write');
    expect((await readFile(file)).equals(annotated)).toBe(true);
  });

  test('when the new one cannot be finished', async () => {
    const file = join(folder, 'kept.pdf');
    await printCards(cards(), file);
    const before = await readFile(file);
    const signal = AbortSignal.abort();
    expect(await codeOf(printCards([VARIANTS.waltz()], file, { signal }))).toBe('aborted');
    expect((await readFile(file)).equals(before)).toBe(true);
  });
});

test.each([
  ['no tracks', () => printCards([], join(folder, 'none.pdf')), 'bad-option'],
  ['an unknown paper', () => printCards(cards(), join(folder, 'x.pdf'), { paper: 'B7' as 'A6' }), 'bad-option'],
  ['a folder that is not there', () => printCards(cards(), join(folder, 'no', 'x.pdf')), 'cannot-write'],
  ['the name of a folder', () => printCards(cards(), folder), 'cannot-write'],
])('%s is refused', async (_, attempt, code) => {
  expect(await codeOf(attempt())).toBe(code);
});

test('a package that is not installed is named with the command that brings it', async () => {
  const absent: string = 'a-package-that-nobody-has';
  const missing = loadOptional('pdfkit', () => import(absent) as Promise<unknown>);
  await expect(missing).rejects.toMatchObject({ code: 'missing-package' });
  await expect(missing).rejects.toThrow('npm install pdfkit');
});

test('progress is told card by card', async () => {
  const done: number[] = [];
  await print(cards(), { onProgress: (p) => done.push(p.done) });
  expect(done).toEqual([0.5, 1]);
});
