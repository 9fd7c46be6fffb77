import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { describe, expect, test } from 'vitest';
import { LEVELS, printWorksheets, styleOf, type WorksheetOptions } from '../../reports/index.js';
import { questionsAbout } from '../../reports/worksheet/questions.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { VARIANTS } from '../ladder/variants.js';
import { readPdf } from './read-pdf.js';

async function worksheet(tracks: readonly TrackAnalysis[], options: WorksheetOptions = {}) {
  const stream = new PassThrough();
  const [result, bytes] = await Promise.all([printWorksheets(tracks, stream, options), buffer(stream)]);
  return { ...result, bytes, pdf: await readPdf(bytes) };
}
const flat = (text: string) => text.replace(/\s+/g, ' ');
const pageText = (pdf: Awaited<ReturnType<typeof readPdf>>, page: number) =>
  flat(pdf.pages[page].texts.map((t) => t.text).join(' '));

const style = styleOf();
const plain = VARIANTS.plain();
const answers = (level: 1 | 2 | 3, variant = 1) =>
  new Map(questionsAbout(plain, style, level, 6, variant).map((q) => [q.ask, q.answer]));

describe('the answers are those of the track', () => {
  // Derived by hand from the made-up track: 16 + 16 + 8 + 18 + 32 + 14 bars of 4 beats at 124 BPM, bar one at 0.42 s.
  const KNOWN: Readonly<Record<string, string>> = {
    'On which bar does the bass first come in?': 'bar 17, 0:31.4',
    'On which bar does the harmony first come in?': 'bar 17, 0:31.4',
    'On which bar does the voice first come in?': 'bar 33, 1:02.4',
    'Where does the drop land? Give bar and time.': 'bar 59, 1:52.7',
    'How much room is there to mix in: how long is the intro, in bars and in time?': '16 bars, 0:31',
    'Which layers do you hear from bar 33 on?': 'harmony and voice',
    'How many bars has the usual phrase of this track, and how many beats?': '16 bars, 64 beats',
    'Does every phrase keep to the usual length? If not, from which bar do you count again?':
      'the fourth: 18 bars, 2 too many; count again from bar 59; the seventh: 14 bars, 2 too few',
    'Mark the one of every phrase. On which bars do they fall?': 'bars 1, 17, 33, 41, 59, 75, 91',
    'How many beats are there from the start of the breakdown to the start of the drop?': '26 bars, 104 beats',
    'The next record has an intro of 16 bars. On which bar of this one do you start it, so that its intro ends just as the outro begins?':
      'bar 75, 2:23.6',
  };
  test('whichever are asked', () => {
    const asked = LEVELS.flatMap((level) => [1, 2, 3, 4, 5].flatMap((variant) => [...answers(level, variant)]));
    const told = asked.filter(([ask]) => ask in KNOWN);
    expect(new Set(told.map(([ask]) => ask)).size).toBe(Object.keys(KNOWN).length);
    for (const [ask, answer] of told) expect(answer, ask).toBe(KNOWN[ask]);
  });
  test('in the count: the number said on a bar is its place in the group', () => {
    for (let variant = 1; variant <= 20; variant++) {
      for (const [ask, answer] of answers(3, variant)) {
        const bar = /first beat of bar (\d+)/.exec(ask)?.[1];
        if (bar === undefined) continue;
        const { groupBar } = plain.bars.find((b) => b.number === Number(bar))!;
        expect(answer).toMatch(new RegExp(`^“${groupBar}”`));
      }
    }
  });
});

test.each(LEVELS)('level %s: no answer stands on the sheet, all stand on the key', async (level) => {
  const { pdf } = await worksheet([plain], { level });
  const questions = questionsAbout(plain, style, level, 6, 1);
  expect(questions).toHaveLength(6);
  const [sheet, key] = [pageText(pdf, 0), pageText(pdf, pdf.pages.length - 1)];
  for (const { ask, answer } of questions) {
    expect(sheet).toContain(ask);
    expect(sheet).not.toContain(answer);
    expect(key).toContain(answer);
  }
});

test('every page carries the caution for the ears', async () => {
  const { pdf } = await worksheet([plain, VARIANTS.long()], { level: 3 });
  for (const i of pdf.pages.keys()) expect(pageText(pdf, i)).toContain('loud sound harms hearing for good');
});

test.each([1, 2] as const)('the blank ladder of level %s does not give the odd phrase away', async (level) => {
  const { pdf } = await worksheet([plain], { level, key: false });
  const bars = pdf.pages[0].texts.flatMap((t) => /^bar (\d+)$/.exec(t.text)?.[1] ?? []).map(Number);
  expect(bars).toEqual([1, 17, 33, 49, 65, 81, 97, 113]);
});

test('a track that nothing is sure about has no worksheet, and says so', async () => {
  const { warnings, pages } = await worksheet([plain, VARIANTS.bare()], { key: false });
  expect(warnings.map((w) => w.code)).toEqual(['no-questions']);
  expect(pages).toBe(1);
  await expect(printWorksheets([VARIANTS.bare()], new PassThrough())).rejects.toMatchObject({ code: 'bad-option' });
});

test('the same sheet is the same bytes, another variant is not', async () => {
  const [one, again, other] = [
    await worksheet([plain]),
    await worksheet([plain]),
    await worksheet([plain], { variant: 2 }),
  ];
  expect(one.bytes.equals(again.bytes)).toBe(true);
  expect(one.bytes.equals(other.bytes)).toBe(false);
});

test('in German, nothing of it is English', async () => {
  const { pdf } = await worksheet([plain], { language: 'de', level: 2 });
  expect(pdf.language).toBe('de');
  expect(pdf.text).not.toMatch(/\b(the|bars?|beats|phrase of|which|where)\b/);
});

describe.each(Object.entries(VARIANTS))('the worksheets of %s', (_name, make) => {
  test.each(LEVELS)('at level %s hold together', async (level) => {
    const analysis = make();
    if (questionsAbout(analysis, style, level, 6, 1).length === 0) return;
    const { pdf } = await worksheet([analysis], { level });
    for (const { texts, width, height } of pdf.pages) {
      expect(texts.filter((t) => t.size < 7 - 1e-3)).toEqual([]);
      expect(texts.filter((t) => t.x < 40 || t.x + t.width > width - 38 || t.y > height - 30)).toEqual([]);
    }
  });
});
