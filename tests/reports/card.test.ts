import { beforeAll, describe, expect, test } from 'vitest';
import { contrastRatio, PAPER_THEME } from '../../src/ladder/index.js';
import { clock } from '../../src/units/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { VARIANTS } from '../ladder/variants.js';
import { print } from './print.js';
import { nodes, readPdf, type PdfContent, type PdfText } from './read-pdf.js';

const flat = (text: string) => text.replace(/\s+/g, ' ');

describe.each(Object.entries(VARIANTS))('the card of %s', (_name, make) => {
  const analysis = make();
  let card: PdfContent;
  let pages: number;
  let bytes: Buffer;
  beforeAll(async () => {
    ({ pages, bytes } = await print([analysis]));
    card = await readPdf(bytes);
  });

  test('has the pages that were reported, each of A6', () => {
    expect(card.pages).toHaveLength(pages);
    // ISO 216: A6 is 105 mm × 148 mm.
    for (const page of card.pages) {
      expect((page.width * 25.4) / 72).toBeCloseTo(105, 1);
      expect((page.height * 25.4) / 72).toBeCloseTo(148, 1);
    }
  });

  test('has no type under 7 points', () => {
    expect(card.pages.flatMap((p) => p.texts.filter((t) => t.size < 7 - 1e-3))).toEqual([]);
  });

  test('has no text outside its margins, and none that overlaps another', () => {
    const margin = (6.5 * 72) / 25.4 - 0.5;
    for (const { texts, width, height } of card.pages) {
      const right = (t: PdfText) => t.x + t.width;
      const outside = texts.filter(
        (t) => t.x < margin || right(t) > width - margin + t.size * 0.3 || t.y > height - margin,
      );
      expect(outside).toEqual([]);
      const pairs = texts.flatMap((t, i) => texts.slice(i + 1).map((other) => [t, other] as const));
      expect(pairs.filter(([one, other]) => overlap(one, other))).toEqual([]);
    }
  });

  test('is vector throughout and uses inks that can be read', () => {
    for (const page of card.pages) {
      expect(page.images).toBe(0);
      for (const colour of page.colours) {
        if (colour === PAPER_THEME.paper) continue;
        expect(contrastRatio(colour, PAPER_THEME.paper), colour).toBeGreaterThanOrEqual(4.5);
      }
    }
  });

  test('has every font embedded and subset', () => {
    const text = bytes.toString('latin1');
    const fonts = [...text.matchAll(/\/BaseFont \/([^\s]+)/g)].map((m) => m[1]);
    expect(fonts.length).toBeGreaterThan(0);
    for (const font of fonts) expect(font).toMatch(/^[A-Z]{6}\+(AtkinsonHyperlegible|NotoSans)-(Regular|Bold)$/);
    const embedded = [...text.matchAll(/\/FontFile2 /g)].length;
    expect(embedded).toBe([...text.matchAll(/\/Type \/FontDescriptor/g)].length);
  });

  test('says where every phrase and section starts', () => {
    const said = flat(card.text);
    for (const bar of analysis.bars.filter((b) => b.phraseBar === 1)) {
      expect(said).toContain(`bar ${bar.number}`);
      expect(said).toContain(clock(bar.start));
    }
    for (const s of analysis.sections) expect(said).toContain(`${s.startBar}–${s.endBar}`);
  });

  test('prints every explanation whole', () => {
    const said = flat(card.text);
    for (const { explanation } of analysis.irregularities) expect(said).toContain(flat(explanation));
  });

  test('is tagged, with language, title and a description of the ladder', () => {
    expect(card.tagged).toBe(true);
    expect(card.language).toBe('en');
    expect(card.info.Title).toMatch(/^Structure card: /);
    const all = card.pages.flatMap((p) => nodes(p.tree));
    expect(all.filter((n) => n.role === 'H1')).toHaveLength(1);
    const figures = all.filter((n) => n.role === 'Figure');
    if (analysis.bars.length === 0) expect(figures).toEqual([]);
    else expect(figures[0].alt).toMatch(/^One row a phrase/);
  });
});

function overlap(a: PdfText, b: PdfText): boolean {
  const slack = 0.05;
  const [aTop, bTop] = [a.y - a.size * 0.67, b.y - b.size * 0.67];
  const across = a.x < b.x + b.width - slack && b.x < a.x + a.width - slack;
  return across && aTop < b.y - slack && bTop < a.y - slack;
}

describe('what a card says', () => {
  const front = async (name: string) => {
    const { bytes } = await print([VARIANTS[name]()]);
    return flat((await readPdf(bytes)).pages[0].texts.map((t) => t.text).join(' '));
  };

  test('a sure tempo held by a clock with two decimals, key with its doubt, length', async () => {
    const said = await front('plain');
    expect(said).toContain('124.00');
    expect(said).toContain('BPM · A minor · 3:23');
    expect(said).toContain('key fairly sure');
  });

  test('the room at both ends, in bars and in time', async () => {
    // Derived: 16 bars of 4 beats at 124 BPM last 16 × 240 / 124 = 30.97 s; 14 bars 27.10 s, and 1.2 s of silence.
    const said = await front('plain');
    expect(said).toContain('Mix in 16 bars 0:31, until bar 17');
    expect(said).toContain('Mix out 14 bars, 0:28 left from bar 91, 2:54.6');
  });

  test.each([
    ['half-time', '87 or 174?'],
    ['drifting', 'about 122–126'],
    ['unsure', 'no steady tempo'],
    ['unsure', 'take 7 (rough).wav'],
    ['unsure', 'voice not judged'],
    ['waltz', '3 beats a bar'],
    ['beatless', 'no beat until bar 17'],
    ['dropped-beats', 'bar 40 has 2 beats'],
    ['bare', 'No bars were found'],
    ['mixed', 'Sluice Gate Śluza'],
    ['mixed', 'Żółw & Őr'],
  ])('%s: %s', async (name, words) => {
    expect(await front(name)).toContain(words);
  });

  test('an irregular phrase in words even where no irregularity explains it', async () => {
    const { text } = await readPdf((await print([VARIANTS.plain()])).bytes);
    expect(flat(text)).toContain("The phrase of bars 91–104 has 14; this track's usually have 16.");
    expect(flat(text)).not.toContain('The phrase of bars 41–58 has');
  });

  test('no second decimal where the tempo is not sure', async () => {
    const analysis = sampleAnalysis();
    const tempo = { ...analysis.tempo, bpm: 123.987, confidence: 0.7 };
    const { bytes } = await print([{ ...analysis, tempo }]);
    const { text } = await readPdf(bytes);
    expect(text).toContain('about 124');
    expect(text).not.toContain('123.99');
  });

  test('a title too long for the front in full on the back, and says so', async () => {
    const analysis = VARIANTS['long-title']();
    const { bytes, warnings } = await print([analysis]);
    expect(warnings.map((w) => w.code)).toEqual(['title-shortened']);
    expect(flat((await readPdf(bytes)).text)).toContain(analysis.source.tags.title!);
  });

  test('characters without a glyph as boxes, with a word about it, and keeps them as the text meant', async () => {
    const { bytes, warnings } = await print([VARIANTS.hostile()]);
    expect(warnings.map((w) => w.code)).toEqual(['missing-glyphs']);
    const { text } = await readPdf(bytes);
    expect(text).toContain('<script>alert("&")</script>');
    expect(flat(text)).toContain('2 characters have no glyph');
    expect(bytes.toString('latin1')).toContain('/ActualText');
  });
});
