import { describe, expect, test } from 'vitest';
import {
  CARD_PAPERS,
  POINTS_PER_MM,
  SHEET_PAPERS,
  type CardPaper,
  type SheetPaper,
} from '../../reports/layout/paper.js';
import { cutsOf, imposeCards, markSpan, planSheet, type SheetOrder } from '../../reports/layout/sheet.js';
import { VARIANTS } from '../ladder/variants.js';
import { print } from './print.js';
import { readPdf } from './read-pdf.js';

const mm = (points: number) => points / POINTS_PER_MM;

/** Trimmed sizes in millimetres: ISO 216 for the A series; inches of 25.4 mm; a square of 12 inches (common practice, no source). */
const SIZES: Readonly<Record<CardPaper, readonly [number, number]>> = {
  A6: [105, 148],
  '3x5in': [76.2, 127],
  '4x6in': [101.6, 152.4],
  A5: [148, 210],
  '12in': [304.8, 304.8],
};
/** ISO 216; ANSI/ASME Y14.1, size A. */
const SHEETS: Readonly<Record<SheetPaper, readonly [number, number]>> = { A4: [210, 297], Letter: [215.9, 279.4] };

describe.each(Object.entries(SIZES))('a card of %s', (name, [width, height]) => {
  test('is as large as it says, to a tenth of a millimetre, on the page as well', async () => {
    const { bytes } = await print([VARIANTS.plain()], { paper: name as CardPaper });
    for (const page of (await readPdf(bytes)).pages) {
      expect(Math.abs(mm(page.width) - width)).toBeLessThan(0.1);
      expect(Math.abs(mm(page.height) - height)).toBeLessThan(0.1);
    }
  });

  test('is trimmed inside its bleed', async () => {
    const { bytes } = await print([VARIANTS.plain()], { paper: name as CardPaper, bleed: 3 });
    const boxes = [...bytes.toString('latin1').matchAll(/\/TrimBox \[([\d. ]+)\]/g)].map((m) =>
      m[1].split(' ').map(Number),
    );
    expect(boxes.length).toBeGreaterThan(0);
    for (const [x1, y1, x2, y2] of boxes) {
      expect(mm(x1)).toBeCloseTo(3, 1);
      expect(mm(y1)).toBeCloseTo(3, 1);
      expect(Math.abs(mm(x2 - x1) - width)).toBeLessThan(0.1);
      expect(Math.abs(mm(y2 - y1) - height)).toBeLessThan(0.1);
    }
  });
});

const LAYOUTS: readonly (readonly [CardPaper, SheetPaper, number, number])[] = [
  // Counted by hand from the sizes above: card, sheet, bleed in mm, cards a sheet.
  ['A6', 'A4', 0, 4],
  ['A6', 'A4', 3, 2],
  ['A6', 'Letter', 0, 2],
  ['3x5in', 'Letter', 0, 4],
  ['3x5in', 'A4', 3, 4],
  ['4x6in', 'A4', 0, 2],
  ['4x6in', 'Letter', 0, 2],
  ['A5', 'A4', 0, 2],
];

describe.each(LAYOUTS)('%s on %s with %s mm of bleed', (card, sheet, bleed, count) => {
  const plan = planSheet(CARD_PAPERS[card], SHEET_PAPERS[sheet], bleed * POINTS_PER_MM);

  test('holds as many cards as fit, none off the sheet and none on another', () => {
    expect(plan.places).toHaveLength(count);
    expect([mm(plan.width), mm(plan.height)].sort((a, b) => a - b).map((n) => Number(n.toFixed(1)))).toEqual(
      SHEETS[sheet],
    );
    const b = plan.bleed;
    plan.places.forEach((p, i) => {
      expect(p.x - b).toBeGreaterThanOrEqual(-1e-6);
      expect(p.y - b).toBeGreaterThanOrEqual(-1e-6);
      expect(p.x + plan.card.width + b).toBeLessThanOrEqual(plan.width + 1e-6);
      expect(p.y + plan.card.height + b).toBeLessThanOrEqual(plan.height + 1e-6);
      for (const q of plan.places.slice(i + 1)) {
        const apart =
          Math.abs(p.x - q.x) >= plan.card.width + 2 * b - 1e-6 ||
          Math.abs(p.y - q.y) >= plan.card.height + 2 * b - 1e-6;
        expect(apart).toBe(true);
      }
    });
  });

  test('has a cut on every edge of a card that is not an edge of the sheet', () => {
    const cuts = cutsOf(plan);
    expect(cuts.map((c) => c.number)).toEqual(cuts.map((_, i) => i + 1));
    const on = (direction: 'across' | 'down', at: number) =>
      cuts.some((c) => c.direction === direction && Math.abs(c.at - at) < 1e-6);
    for (const { x, y } of plan.places) {
      for (const at of [x, x + plan.card.width]) {
        expect(on('down', at) || at < 1e-3 || at > plan.width - 1e-3).toBe(true);
      }
      for (const at of [y, y + plan.card.height]) {
        expect(on('across', at) || at < 1e-3 || at > plan.height - 1e-3).toBe(true);
      }
    }
  });

  test('keeps its marks out of the bleed, or in white margins on the line that is cut', () => {
    const [from, to] = markSpan(plan.places[0].x, plan.bleed);
    const clear = to <= plan.places[0].x - plan.bleed;
    expect(clear || (from === 0 && to < CARD_PAPERS[card].margin + 6)).toBe(true);
  });
});

test('a card larger than the sheet is refused', () => {
  expect(() => planSheet(CARD_PAPERS['12in'], SHEET_PAPERS.A4, 0)).toThrow('does not fit');
});

describe.each(['sheet', 'stack'] as const satisfies readonly SheetOrder[])('dealing cards out by %s', (order) => {
  const counts = [2, 1, 4, 2, 3, 1, 2, 2, 2];
  const plan = planSheet(CARD_PAPERS.A6, SHEET_PAPERS.A4, 0);
  const sides = imposeCards(counts, plan, order);

  test('places every page once, a back behind its front when left and right change', () => {
    const placed = sides.flatMap((s) => s.places).filter((p) => p !== null);
    const every = counts.flatMap((n, card) => Array.from({ length: n }, (_, page) => ({ card, page })));
    const byCard = (a: { card: number; page: number }, b: typeof a) => a.card - b.card || a.page - b.page;
    expect([...placed].sort(byCard)).toEqual(every);
    sides.forEach((side, i) =>
      side.places.forEach((what, place) => {
        if (what === null || what.page % 2 === 0) return;
        expect(side.side).toBe('back');
        const front = sides[i - 1].places.findIndex((f) => f?.card === what.card && f.page === what.page - 1);
        expect(plan.places[place].x + plan.card.width).toBeCloseTo(plan.width - plan.places[front].x, 6);
        expect(plan.places[place].y).toBeCloseTo(plan.places[front].y, 6);
      }),
    );
  });

  test('gives every front a back, so that both sides can be printed in one go', () => {
    sides.forEach((side, i) => expect(side.side).toBe(i % 2 === 0 ? 'front' : 'back'));
  });

  test('lets the piles be put together in order', () => {
    const fronts = sides.filter((s) => s.side === 'front');
    const leaf = (what: { card: number; page: number } | null) =>
      what === null ? Infinity : what.card * 100 + what.page;
    const read =
      order === 'stack'
        ? plan.places.flatMap((_, place) => fronts.map((s) => leaf(s.places[place])))
        : fronts.flatMap((s) => s.places.map(leaf));
    expect(read).toEqual([...read].sort((a, b) => a - b));
  });
});

test('cards without a second page need no backs', () => {
  expect(imposeCards([1, 1], { columns: 2, rows: 2 })).toHaveLength(1);
});

test('five cards make sheets whose backs carry the right titles in the right places', async () => {
  const names = ['plain', 'eights', 'waltz', 'beatless', 'pick-up'];
  const analyses = names.map((n) => VARIANTS[n]());
  const { pages, bytes } = await print(analyses, { sheet: 'A4' });
  const pdf = await readPdf(bytes);
  expect(pages).toBe(4);
  expect(pdf.pages).toHaveLength(4);
  const { width, height } = SHEET_PAPERS.A4;
  const titleAt = (page: number, right: boolean, lower: boolean) =>
    pdf.pages[page].texts
      .filter((t) => t.x > width / 2 === right && t.y > height / 2 === lower)
      .map((t) => t.text)
      .find((t) => analyses.some((a) => a.source.tags.title === t));
  expect(titleAt(0, false, false)).toBe('Slack Water');
  expect(titleAt(1, true, false)).toBe('Slack Water');
  expect(titleAt(0, true, false)).toBe('Eight by Eight');
  expect(titleAt(1, false, false)).toBe('Eight by Eight');
  expect(titleAt(2, false, false)).toBe('Leading In');
  expect(titleAt(3, true, false)).toBe('Leading In');
  expect(pdf.bookmarks).toHaveLength(5);
});

describe('an index', () => {
  const analyses = ['half-time', 'waltz', 'plain'].map((n) => VARIANTS[n]());
  const firstPage = async (index: 'tempo' | 'name') => {
    const { pages, bytes } = await print(analyses, { index, sheet: 'A4' });
    const pdf = await readPdf(bytes);
    expect(pdf.pages).toHaveLength(pages);
    return { pdf, rows: pdf.pages[0].texts.map((t) => t.text) };
  };

  test('by tempo has the slowest first, and so have the cards', async () => {
    const { pdf, rows } = await firstPage('tempo');
    const places = ['Slack Water', 'Three to the Bar', 'Double Lock'].map((name) =>
      rows.findIndex((r) => r.includes(name)),
    );
    expect(places.every((p) => p >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(pdf.bookmarks.map((b) => b.replace(/^.*: /, ''))).toEqual([
      'Index by tempo',
      'Slack Water',
      'Three to the Bar',
      'Double Lock',
    ]);
  });

  test('by name has them by the alphabet', async () => {
    const { pdf } = await firstPage('name');
    expect(pdf.bookmarks.slice(1).map((b) => b.replace(/^.*: /, ''))).toEqual([
      'Double Lock',
      'Slack Water',
      'Three to the Bar',
    ]);
  });
});
