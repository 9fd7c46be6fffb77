import { describe, expect, test } from 'vitest';
import { fitText } from '../../reports/layout/fit.js';
import { loadFaces } from '../../reports/layout/fonts.js';
import { printable } from '../../reports/layout/printable.js';
import { splitRuns } from '../../reports/layout/runs.js';
import { isOwn } from '../../reports/layout/signature.js';

const measure = (text: string, size: number) => text.length * size * 0.5;
const options = { width: 60, size: 12, least: 8, maxLines: 2, measure };

describe('fitting a text', () => {
  test('keeps the size that was wanted where it fits', () => {
    expect(fitText('ten chars!', options)).toEqual({ lines: ['ten chars!'], size: 12, cut: false });
  });
  test('takes a smaller size before a second line', () => {
    expect(fitText('twelve chars', options)).toEqual({ lines: ['twelve chars'], size: 10, cut: false });
  });
  test('takes a second line before an ellipsis', () => {
    expect(fitText('two lines of this', options)).toEqual({ lines: ['two lines of', 'this'], size: 8, cut: false });
  });
  test('says that it cut, and keeps to the width, when nothing else helps', () => {
    const { lines, cut } = fitText('far too many words for a card as small as this', options);
    expect(cut).toBe(true);
    expect(lines.at(-1)).toMatch(/…$/);
    for (const line of lines) expect(measure(line, 8)).toBeLessThanOrEqual(60);
  });
  test('breaks a word that no line could hold', () => {
    const { lines } = fitText('x'.repeat(200), options);
    for (const line of lines) expect(measure(line, 8)).toBeLessThanOrEqual(60);
  });
});

describe('what can be printed', () => {
  test('is one line without control characters, composed', () => {
    expect(printable(' a\u0000b\r\n\tc\u202Ed e\u0301 ')).toBe('ab cd é');
  });
  test('is split by the font file that has the glyphs; what none has stands alone', async () => {
    const { regular } = await loadFaces();
    expect(splitRuns('ab Łódź 船x', regular)).toEqual([
      { font: 'atkinson-hyperlegible-latin-400', text: 'ab ' },
      { font: 'atkinson-hyperlegible-latin-ext-400', text: 'Ł' },
      { font: 'atkinson-hyperlegible-latin-400', text: 'ód' },
      { font: 'atkinson-hyperlegible-latin-ext-400', text: 'ź ' },
      { font: null, text: '船' },
      { font: 'atkinson-hyperlegible-latin-400', text: 'x' },
    ]);
  });
  test.each([
    ['Đêm mưa bên cầu', 'Vietnamese'],
    ['Ποταμός', 'Greek'],
    ['Тихая протока', 'Cyrillic'],
  ])('%s (%s) comes from one font', async (text) => {
    const { regular, bold } = await loadFaces();
    for (const face of [regular, bold]) {
      const fonts = splitRuns(text, face).map((run) => run.font);
      expect(fonts).not.toContain(null);
      for (const font of fonts) expect(font).toMatch(/^noto-sans-/);
    }
  });
});

test('a PDF by somebody else is not taken for ours', () => {
  expect(isOwn(Buffer.from('%PDF-1.7\n<pdf:Producer>Another maker</pdf:Producer>\n%%EOF\n'))).toBe(false);
});
