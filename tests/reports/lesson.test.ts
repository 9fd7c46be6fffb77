import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { PNG } from 'pngjs';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { printLesson, type LessonOptions, type LessonPaper } from '../../reports/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clock } from '../../src/units/index.js';
import { VARIANTS } from '../ladder/variants.js';
import { nodes, readPdf } from './read-pdf.js';

async function lesson(tracks: readonly TrackAnalysis[], options: LessonOptions = {}) {
  const stream = new PassThrough();
  const [result, bytes] = await Promise.all([printLesson(tracks, stream, options), buffer(stream)]);
  return { ...result, bytes, pdf: await readPdf(bytes) };
}
const flat = (text: string) => text.replace(/\s+/g, ' ');

/** Millimetres, lying: ISO 216; ANSI size A; a slide of 13⅓ × 7½ inches (16 : 9; common practice, no source). */
const SIZES: Readonly<Record<LessonPaper, readonly [number, number]>> = {
  A4: [297, 210],
  A3: [420, 297],
  Letter: [279.4, 215.9],
  '16:9': [338.667, 190.5],
};

test.each(Object.entries(SIZES))(
  'a diagram on %s has its size to a tenth of a millimetre',
  async (paper, [width, height]) => {
    const { pdf } = await lesson([VARIANTS.mixed()], { paper: paper as LessonPaper });
    for (const page of pdf.pages) {
      expect(Math.abs((page.width * 25.4) / 72 - width)).toBeLessThan(0.1);
      expect(Math.abs((page.height * 25.4) / 72 - height)).toBeLessThan(0.1);
    }
  },
);

describe.each(Object.entries(VARIANTS))('the diagram of %s', (_name, make) => {
  test('says where every phrase starts, in type of 7 points or more, inside the page, tagged', async () => {
    const analysis = make();
    const { pdf, pages } = await lesson([analysis], { paper: 'A3' });
    expect(pdf.pages).toHaveLength(pages);
    const said = flat(pdf.text);
    for (const bar of analysis.bars.filter((b) => b.phraseBar === 1)) {
      expect(said).toContain(`bar ${bar.number}`);
      expect(said).toContain(clock(bar.start));
    }
    for (const { texts, width, height, images } of pdf.pages) {
      expect(images).toBe(0);
      expect(texts.filter((t) => t.size < 7 - 1e-3)).toEqual([]);
      expect(texts.filter((t) => t.x < 0 || t.x + t.width > width || t.y > height)).toEqual([]);
    }
    const all = pdf.pages.flatMap((p) => nodes(p.tree));
    if (analysis.bars.length > 0) expect(all.find((n) => n.role === 'Figure')?.alt).toMatch(/^One row a phrase/);
  });
});

test('the count stands over every bar: 1 2 3 4 in every group', async () => {
  const { pdf } = await lesson([VARIANTS.eights()]);
  const rows = new Map<number, string[]>();
  for (const t of pdf.pages[0].texts.filter((t) => /^[1-4]$/.test(t.text))) {
    rows.set(Math.round(t.y), [...(rows.get(Math.round(t.y)) ?? []), t.text]);
  }
  const counts = [...rows.values()].map((r) => r.join(''));
  expect(counts.filter((c) => c === '12341234')).toHaveLength(10);
});

test('two tracks side by side, with what sets them apart', async () => {
  const { pdf } = await lesson([VARIANTS.plain(), VARIANTS.eights()], { paper: 'A3' });
  const said = flat(pdf.text);
  expect(said).toContain('usual phrase A 16 bars, 64 beats B 8 bars, 32 beats');
  expect(said).toContain('first drop A bar 59, 1:52.7 B bar 49, 1:33.3');
  expect(pdf.pages.flatMap((p) => nodes(p.tree)).filter((n) => n.role === 'Figure')).toHaveLength(2);
});

test('three tracks are too many', async () => {
  const three = [VARIANTS.plain(), VARIANTS.plain(), VARIANTS.plain()];
  await expect(printLesson(three, new PassThrough())).rejects.toMatchObject({ code: 'bad-option' });
});

describe('pictures', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'barwise-lesson-'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  test('an SVG is XML with a title and a description, without text that needs a font', async () => {
    const file = join(folder, 'one.svg');
    await printLesson([VARIANTS.hostile()], file);
    const svg = await readFile(file, 'utf8');
    const open: string[] = [];
    const parser = new SaxesParser();
    parser.on('opentag', (tag) => open.push(tag.name));
    parser.on('error', (error) => {
      throw error;
    });
    parser.write(svg).close();
    expect(open).toContain('desc');
    expect(open).not.toContain('text');
    expect(open).not.toContain('script');
  });

  test('a PNG has the pixels that were asked for', async () => {
    const file = join(folder, 'one.png');
    await printLesson([VARIANTS.plain()], file, { resolution: 100 });
    const { width, height } = PNG.sync.read(await readFile(file));
    // A4 lying at 100 pixels to the inch: 297 and 210 mm / 25.4 × 100.
    expect(Math.abs(width - 1169.3)).toBeLessThanOrEqual(1);
    expect(Math.abs(height - 826.8)).toBeLessThanOrEqual(1);
  });

  test.each(['svg', 'png'])('an %s of ours is made anew, one that was changed is not', async (ending) => {
    const file = join(folder, `again.${ending}`);
    await printLesson([VARIANTS.plain()], file, { resolution: 50 });
    const first = await readFile(file);
    await printLesson([VARIANTS.plain()], file, { resolution: 50 });
    expect((await readFile(file)).equals(first)).toBe(true);
    const changed = Buffer.from(first);
    changed[Math.floor(changed.length / 2)] ^= 1;
    await writeFile(file, changed);
    await expect(printLesson([VARIANTS.plain()], file)).rejects.toMatchObject({ code: 'cannot-write' });
    expect((await readFile(file)).equals(changed)).toBe(true);
  });

  test('pages after the first have files of their own', async () => {
    const { pages } = await printLesson([VARIANTS.long()], join(folder, 'long.svg'), { paper: 'A4' });
    const files = (await readdir(folder)).filter((f) => f.startsWith('long'));
    expect(files).toHaveLength(pages);
    expect(pages).toBeGreaterThan(1);
    expect(files).toContain('long-2.svg');
  });
});
