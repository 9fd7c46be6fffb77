import { describe, expect, test } from 'vitest';
import { CARD_PAPERS, cardPlaces, A4_SHEET, POINTS_PER_MM } from '../../reports/layout/paper.js';
import { imposeCards } from '../../reports/layout/sheet.js';
import { VARIANTS } from '../ladder/variants.js';
import { print } from './print.js';
import { readPdf } from './read-pdf.js';

describe('dealing cards out to sheets', () => {
  test('places every page once, a back behind its front when the sheet is turned about its long edge', () => {
    const counts = [2, 1, 4, 2, 3, 1];
    const sides = imposeCards(counts);
    const placed = sides.flatMap((s) => s.places).filter((p) => p !== null);
    const every = counts.flatMap((n, card) => Array.from({ length: n }, (_, page) => ({ card, page })));
    const order = (a: { card: number; page: number }, b: typeof a) => a.card - b.card || a.page - b.page;
    expect([...placed].sort(order)).toEqual(every);
    const { width } = CARD_PAPERS.A6;
    const places = cardPlaces();
    sides.forEach((side, i) =>
      side.places.forEach((what, place) => {
        if (what === null || what.page % 2 === 0) return;
        const front = sides[i - 1].places.findIndex((f) => f?.card === what.card && f.page === what.page - 1);
        expect(places[place].x + width).toBeCloseTo(A4_SHEET.width - places[front].x, 6);
        expect(places[place].y).toBeCloseTo(places[front].y, 6);
      }),
    );
  });

  test('needs no back side where no card has a second page', () => {
    expect(imposeCards([1, 1])).toHaveLength(1);
  });
});

test('the four places lie on the sheet and do not overlap', () => {
  // ISO 216: A4 is 210 mm × 297 mm, A6 105 mm × 148 mm.
  const { width, height } = CARD_PAPERS.A6;
  expect(A4_SHEET.width / POINTS_PER_MM).toBeCloseTo(210, 6);
  expect(A4_SHEET.height / POINTS_PER_MM).toBeCloseTo(297, 6);
  const places = cardPlaces();
  expect(new Set(places.map((p) => `${p.x},${p.y}`)).size).toBe(4);
  for (const { x, y } of places) {
    expect(x + width).toBeLessThanOrEqual(A4_SHEET.width + 1e-6);
    expect(y).toBeGreaterThanOrEqual(0);
    expect(y + height).toBeLessThanOrEqual(A4_SHEET.height + 1e-6);
  }
});

test('five cards make sheets whose backs carry the right titles in the right places', async () => {
  const names = ['plain', 'eights', 'waltz', 'beatless', 'pick-up'];
  const analyses = names.map((n) => VARIANTS[n]());
  const { pages, bytes } = await print(analyses, { paper: 'A4-sheet' });
  const pdf = await readPdf(bytes);
  expect(pages).toBe(4);
  expect(pdf.pages).toHaveLength(4);
  const titleAt = (page: number, right: boolean, lower: boolean) =>
    pdf.pages[page].texts
      .filter((t) => t.x > A4_SHEET.width / 2 === right && t.y > A4_SHEET.height / 2 === lower)
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
