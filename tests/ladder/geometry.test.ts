import { describe, expect, test } from 'vitest';
import {
  layoutLadder,
  measureText,
  PAPER_METRICS,
  SCREEN_METRICS,
  type LadderGeometry,
  type Rung,
} from '../../src/ladder/index.js';
import { VARIANTS } from './variants.js';

const rungsOf = (geometry: LadderGeometry): readonly Rung[] => geometry.pages.flatMap((p) => p.rungs);
const variants = Object.entries(VARIANTS).map(([name, make]) => [name, make()] as const);
const layouts = [
  ['a screen', { width: 900 }],
  ['a phone', { width: 340, metrics: { ...SCREEN_METRICS, labelWidth: 92 } }],
  ['a dense card', { width: 260, height: 280, metrics: { ...PAPER_METRICS, lane: 2.7, gap: 2 } }],
  ['a card', { width: 260, height: 280, nextHeight: 360, metrics: PAPER_METRICS }],
] as const;

describe.each(layouts)('on %s', (_, options) => {
  describe.each(variants)('%s', (_name, analysis) => {
    const geometry = layoutLadder(analysis, options);
    const rungs = rungsOf(geometry);

    test('every bar is drawn exactly once, in order', () => {
      expect(rungs.flatMap((r) => r.cells.map((c) => c.bar))).toEqual(analysis.bars.map((b) => b.number));
    });

    test('cells meet edge to edge and are as wide as they have beats', () => {
      for (const rung of rungs) {
        rung.cells.forEach((cell, i) => {
          expect(cell.width).toBeCloseTo((cell.beats / geometry.beatsPerBar) * geometry.barWidth, 6);
          if (i > 0) expect(cell.x).toBeCloseTo(rung.cells[i - 1].x + rung.cells[i - 1].width, 6);
          if (i > 0) expect(cell.start).toBeCloseTo(rung.cells[i - 1].end, 3);
        });
        const firstWhole = rung.cells.find((c) => !c.hanging);
        expect(firstWhole?.x).toBeCloseTo(geometry.leftEdge, 6);
      }
    });

    test('each phrase has its own rungs, parts counted through', () => {
      for (const phrase of analysis.phrases) {
        const own = rungs.filter((r) => r.phrase === phrase.number);
        expect(own.map((r) => r.part)).toEqual(own.map((_, i) => i + 1));
        expect(own.every((r) => r.parts === own.length)).toBe(true);
        expect(own.flatMap((r) => r.cells).filter((c) => !c.hanging)).toHaveLength(phrase.bars);
      }
    });

    test('the ruled edge stands at the usual phrase length', () => {
      for (const page of geometry.pages) {
        expect(page.ruledEdge.x).toBeCloseTo(geometry.leftEdge + analysis.phraseBars * geometry.barWidth, 6);
      }
    });

    test('strips cover exactly the bars in which their layer is heard', () => {
      const index = new Map(analysis.bars.map((b, i) => [b.number, i]));
      for (const layer of geometry.lanes) {
        for (const presence of ['present', 'partly'] as const) {
          const drawn = rungs
            .flatMap((r) => r.cells.filter((c) => r.strips.some((s) => covers(s, c, layer, presence))))
            .map((c) => c.bar);
          const heard = analysis.bars
            .map((b) => ({ bar: b.number, value: analysis.layers[layer][index.get(b.number)!] ?? 0 }))
            .filter(({ value }) => (presence === 'present' ? value >= 0.5 : value >= 0.25 && value < 0.5));
          expect(drawn).toEqual(heard.map((h) => h.bar));
        }
      }
    });

    test('rungs do not overlap, and nothing stands outside the drawing', () => {
      for (const page of geometry.pages) {
        page.rungs.forEach((rung, i) => {
          const before = page.rungs[i - 1]?.block;
          if (before !== undefined) expect(rung.block.y).toBeGreaterThanOrEqual(before.y + before.height - 1e-9);
          for (const cell of [...rung.cells, ...rung.open]) {
            expect(cell.x).toBeGreaterThanOrEqual(0);
            expect(cell.x + cell.width).toBeLessThanOrEqual(geometry.width + 1e-6);
          }
          for (const text of rung.texts) {
            expect(text.y).toBeLessThanOrEqual(rung.block.y + rung.block.height);
          }
        });
      }
    });

    test('texts do not overlap each other or the cells, and none is cut off', () => {
      for (const page of geometry.pages) {
        const boxes = page.rungs.flatMap((r) => r.texts).map((t) => textBox(t));
        expect(boxes.filter((b) => b.x1 < -1e-6 || b.x2 > geometry.width + 1e-6)).toEqual([]);
        const cells = page.rungs.map(({ row }) => {
          return { text: 'cells', x1: row.x, x2: row.x + row.width, y1: row.y, y2: row.y + row.height };
        });
        const letters = page.rungs.flatMap((r) => r.letters.map((l) => letterBox(l, geometry.metrics.text)));
        const pairs = boxes.flatMap((a, i) =>
          [...boxes.slice(i + 1), ...cells, ...letters].map((b) => [a, b] as const),
        );
        pairs.push(...letters.flatMap((a, i) => [...letters.slice(i + 1), ...cells].map((b) => [a, b] as const)));
        expect(pairs.filter(([a, b]) => overlap(a, b))).toEqual([]);
      }
    });
  });
});

type Strip = Rung['strips'][number];
function covers(
  strip: Strip,
  cell: Rung['cells'][number],
  layer: Strip['layer'],
  presence: Strip['presence'],
): boolean {
  const inside = cell.x >= strip.x - 1e-6 && cell.x + cell.width <= strip.x + strip.width + 1e-6;
  return strip.layer === layer && strip.presence === presence && inside;
}

/** From the cap height to the descenders, which is what the eye sees. */
function textBox(t: Rung['texts'][number]) {
  const width = measureText(t.text, t.size, t.bold);
  const x1 = t.anchor === 'start' ? t.x : t.anchor === 'end' ? t.x - width : t.x - width / 2;
  return { text: t.text, x1, x2: x1 + width, y1: t.y - t.size * 0.67, y2: t.y + t.size * 0.2 };
}
function letterBox({ letter, x, y }: Rung['letters'][number], size: number) {
  const half = measureText(letter, size, true) / 2;
  return { text: letter, x1: x - half, x2: x + half, y1: y - size * 0.66, y2: y };
}
type TextBox = ReturnType<typeof textBox>;
function overlap(a: TextBox, b: TextBox): boolean {
  const slack = 0.01;
  return a.x1 < b.x2 - slack && b.x1 < a.x2 - slack && a.y1 < b.y2 - slack && b.y1 < a.y2 - slack;
}
