import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readTheme, styleOf } from '../../reports/index.js';
import { hatch, HATCH_NAMES, HATCHES, INK_SAVING_HATCHES, type HatchName } from '../../src/ladder/index.js';
import { LANGUAGES } from '../../src/wording/index.js';
import { PRINT_LANGUAGES } from '../../reports/words/index.js';
import { VARIANTS } from '../ladder/variants.js';
import { print } from './print.js';
import { readPdf } from './read-pdf.js';

const flat = (text: string) => text.replace(/\s+/g, ' ');

describe('a theme', () => {
  test('changes colours, hatches and words', async () => {
    const theme = {
      colours: { accent: '#003366' },
      words: {
        functions: { drop: 'big moment' },
        layers: { percussion: 'drum kit' },
        print: { back: { notes: 'My notes' } },
      },
    };
    const { bytes } = await print([VARIANTS.plain()], { theme: theme });
    const pdf = await readPdf(bytes);
    expect(flat(pdf.text)).toContain('big moment');
    expect(flat(pdf.text)).toContain('P drum kit');
    expect(flat(pdf.text)).toContain('My notes');
    expect(pdf.pages[0].colours).toContain('#003366');
    expect(pdf.pages[0].colours).not.toContain('#8a2b06');
  });

  test.each([
    [{ colours: { ink: '#cccccc' } }, 'colours.ink'],
    [{ colours: { ink: 'red' } }, 'colours.ink'],
    [{ hatches: { kick: 'dots' } }, 'hatches'],
    [{ hatches: { kick: 'stars' } }, 'hatches.kick'],
    [{ words: { letters: { kick: 'B' } } }, 'words.letters'],
    [{ words: { layers: { flute: 'x' } } }, 'words.layers'],
    [{ words: { layers: { kick: '' } } }, 'words.layers.kick'],
    [{ words: { bars: 'x' } }, 'words'],
    [{ language: 'xx' }, 'language'],
    ['text', 'the whole'],
  ])('%j is refused, with the place', (theme, where) => {
    expect(() => styleOf(theme)).toThrow(`at ${where},`);
  });

  test('is read from YAML, and what is wrong with the file is said', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'barwise-theme-'));
    const file = join(folder, 'school.yaml');
    await writeFile(file, 'language: de\ncolours:\n  accent: "#003366"\n');
    expect(await readTheme(file)).toEqual({ language: 'de', colours: { accent: '#003366' } });
    await writeFile(file, 'colours: [');
    await expect(readTheme(file)).rejects.toMatchObject({ code: 'file-unreadable' });
    await writeFile(file, 'colors: {}');
    await expect(readTheme(file)).rejects.toThrow('school.yaml');
    await expect(readTheme(join(folder, 'none.yaml'))).rejects.toMatchObject({ code: 'file-missing' });
    await rm(folder, { recursive: true });
  });
});

describe('languages', () => {
  /** The shape of a table: names of all its leaves, with what they are. */
  const leaves = (table: object, path = ''): readonly string[] =>
    Object.entries(table).flatMap(([name, value]) =>
      typeof value === 'object' && value !== null
        ? leaves(value as object, `${path}${name}.`)
        : [`${path}${name}: ${typeof value}`],
    );
  test.each(Object.keys(LANGUAGES) as (keyof typeof LANGUAGES)[])('%s has every word', (tag) => {
    expect(leaves(PRINT_LANGUAGES[tag]).toSorted()).toEqual(leaves(PRINT_LANGUAGES.en).toSorted());
  });

  test.each(Object.entries(VARIANTS))('the German card of %s has no English on it', async (_name, make) => {
    const analysis = { ...make(), irregularities: [] };
    const source = { ...analysis.source, tags: { ...analysis.source.tags, title: 'Xyz', artist: null } };
    const { bytes } = await print([{ ...analysis, source }], { language: 'de' });
    const { text, language } = await readPdf(bytes);
    expect(language).toBe('de');
    // The title is the record's own and may be in any language.
    const words = text.replaceAll(make().source.tags.title ?? '\u0000', '');
    expect(words).not.toMatch(/\b(bars?|beats|fairly|sure|elapsed|left|key|enters|leaves|nowhere)\b/i);
  });
});

describe('saving ink', () => {
  /** Ink on a strip, in its own area: filled areas and strokes times their width, overlaps counted twice. */
  const ink = (name: HatchName): number => {
    const box = { x: 0, y: 0, width: 100, height: 4 };
    return hatch(name, box, 5, 0).reduce((sum, { d, stroke, dash }) => {
      const points = [...d.matchAll(/[MLHVZ][^MLHVZ]*/g)].map((m) => m[0]);
      let [x, y, length, area, startX, startY] = [0, 0, 0, 0, 0, 0];
      for (const point of points) {
        const numbers = point.slice(1).trim().split(' ').map(Number);
        const [nextX, nextY] =
          point[0] === 'H'
            ? [numbers[0], y]
            : point[0] === 'V'
              ? [x, numbers[0]]
              : point[0] === 'Z'
                ? [startX, startY]
                : numbers;
        if (point[0] === 'M') [startX, startY] = [nextX, nextY];
        else length += Math.hypot(nextX - x, nextY - y);
        area += (x * nextY - nextX * y) / 2;
        [x, y] = [nextX, nextY];
      }
      if (stroke === null) return sum + Math.abs(area);
      const dots = dash === undefined ? 0 : (length / (dash[0] + dash[1])) * Math.PI * (stroke / 2) ** 2;
      return sum + (dash === undefined ? length * stroke : dots);
    }, 0);
  };
  test('takes less than half for every layer that it changes', () => {
    for (const layer of ['kick', 'bass'] as const) {
      expect(ink(INK_SAVING_HATCHES[layer])).toBeLessThan(ink(HATCHES[layer]) * 0.5);
    }
  });
  test('and no two hatches are drawn alike', () => {
    const box = { x: 0, y: 0, width: 100, height: 4 };
    const drawn = HATCH_NAMES.map((name) => JSON.stringify(hatch(name, box, 5, 0)));
    expect(new Set(drawn).size).toBe(HATCH_NAMES.length);
  });
});
