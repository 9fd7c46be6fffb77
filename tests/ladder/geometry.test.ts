import { describe, expect, test } from 'vitest';
import {
  layoutLadder,
  measureText,
  PAPER_METRICS,
  SCREEN_METRICS,
  type LadderGeometry,
  type Rung,
} from '../../src/ladder/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { VARIANTS, withBeats } from './variants.js';

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

describe('a phrase that leaves the pattern', () => {
  const geometry = layoutLadder(sampleAnalysis(), { width: 900 });
  const rungs = rungsOf(geometry);
  const edge = geometry.pages[0].ruledEdge.x;

  test('runs past the ruled edge with its surplus bars, and only with those', () => {
    const long = rungs.find((r) => r.cells.length === 18)!;
    expect(long.cells.filter((c) => c.surplus).map((c) => c.bar)).toEqual([57, 58]);
    for (const cell of long.cells) expect(cell.x >= edge - 1e-6).toBe(cell.surplus);
    expect(long.brokenEnd).toBeCloseTo(long.row.x + long.row.width, 6);
    expect(long.texts.map((t) => t.text)).toContain('2 bars over: count again from bar 59');
  });

  test('has open cells up to the ruled edge for the bars it is short of', () => {
    const short = rungs.at(-1)!;
    expect(short.cells).toHaveLength(14);
    expect(short.open.map((o) => o.phraseBar)).toEqual([15, 16]);
    expect(short.open[1].x + short.open[1].width).toBeCloseTo(edge, 6);
  });

  test('is told from a regular shorter phrase, which simply ends early', () => {
    const eight = rungs.find((r) => r.cells.length === 8)!;
    expect(eight.open).toEqual([]);
    expect(eight.brokenEnd).toBeNull();
  });
});

test('a phrase of two usual lengths goes on in a second row', () => {
  const rungs = rungsOf(layoutLadder(VARIANTS.mixed(), { width: 900 })).filter((r) => r.parts > 1);
  expect(rungs.map((r) => [r.part, r.cells.length])).toEqual([
    [1, 16],
    [2, 16],
  ]);
});

test('a bar that lost two of its four beats is half as wide and shows the beats it has', () => {
  const geometry = layoutLadder(VARIANTS['dropped-beats'](), { width: 900 });
  const cell = rungsOf(geometry)
    .flatMap((r) => r.cells)
    .find((c) => c.bar === 40)!;
  expect(cell.width).toBeCloseTo(geometry.barWidth / 2, 6);
  expect(cell.oddBeats).toBe(true);
  expect(cell.beatTicks).toEqual([cell.x + cell.width / 2]);
});

test('a bar with added beats is wider and its rung may pass the ruled edge', () => {
  const geometry = layoutLadder(withBeats(VARIANTS.eights(), 40, 6), { width: 900 });
  const rung = rungsOf(geometry).find((r) => r.lastBar === 40)!;
  expect(rung.row.x + rung.row.width).toBeCloseTo(geometry.pages[0].ruledEdge.x + geometry.barWidth / 2, 6);
});

test('a pick-up hangs out to the left, so that the first one stands on the edge', () => {
  const geometry = layoutLadder(VARIANTS['pick-up'](), { width: 900 });
  const [hanging, one] = rungsOf(geometry)[0].cells;
  expect(hanging).toMatchObject({ bar: 0, beats: 3, hanging: true });
  expect(hanging.x + hanging.width).toBeCloseTo(geometry.leftEdge, 6);
  expect(one).toMatchObject({ bar: 1, hanging: false });
});

test('bars without a beat are known as such', () => {
  const cells = rungsOf(layoutLadder(VARIANTS.beatless(), { width: 900 })).flatMap((r) => r.cells);
  expect(cells.filter((c) => c.beatless).map((c) => c.bar)).toEqual(Array.from({ length: 16 }, (_, i) => i + 1));
});

test('three beats fill a bar of three', () => {
  const geometry = layoutLadder(VARIANTS.waltz(), { width: 900 });
  expect(rungsOf(geometry).every((r) => r.cells.every((c) => c.beats === 3 && !c.oddBeats))).toBe(true);
  expect(rungsOf(geometry)[0].row.width).toBeCloseTo(8 * geometry.barWidth, 6);
});

test('a drop lands where the first main section after a build-up starts, once', () => {
  const landing = rungsOf(layoutLadder(sampleAnalysis(), { width: 900 })).filter((r) => r.dropLands);
  expect(landing.map((r) => r.firstBar)).toEqual([59]);
});

test('what is not sure carries a question mark', () => {
  const sure = rungsOf(layoutLadder(VARIANTS.eights(), { width: 900 })).flatMap((r) => r.texts);
  const unsure = rungsOf(layoutLadder(VARIANTS.unsure(), { width: 900 })).flatMap((r) => r.texts);
  expect(sure.filter((t) => t.text.endsWith('?'))).toEqual([]);
  expect(unsure.map((t) => t.text)).toEqual(expect.arrayContaining(['intro?', 'bar 9?', 'drums in?']));
});

test('pages hold the same rungs as one long drawing, and none is higher than allowed', () => {
  const analysis = VARIANTS.long();
  const options = { width: 260, metrics: PAPER_METRICS };
  const one = layoutLadder(analysis, options);
  const many = layoutLadder(analysis, { ...options, height: 200, nextHeight: 300 });
  expect(one.pages).toHaveLength(1);
  expect(rungsOf(many).map((r) => r.firstBar)).toEqual(rungsOf(one).map((r) => r.firstBar));
  many.pages.forEach((page, i) => expect(page.height).toBeLessThanOrEqual(i === 0 ? 200 : 300));
});

test('half-time bars are underlined in every rung they reach into', () => {
  const analysis = VARIANTS.eights();
  const parameters = { endBar: 30, countedBpm: 174, feltBpm: 87 };
  const [sample] = sampleAnalysis().irregularities;
  const irregularities = [{ ...sample, kind: 'half-time' as const, bar: 20, parameters }];
  const marks = rungsOf(layoutLadder({ ...analysis, irregularities }, { width: 900 })).map((r) => r.marks.length);
  expect(marks).toEqual([0, 0, 1, 1, 0, 0, 0, 0, 0, 0]);
});

test('the same analysis gives the same geometry and is left untouched', () => {
  const analysis = VARIANTS['dropped-beats']();
  const before = JSON.stringify(analysis);
  expect(layoutLadder(analysis, { width: 500 })).toEqual(layoutLadder(analysis, { width: 500 }));
  expect(JSON.stringify(analysis)).toBe(before);
});

test('a track without bars has no rungs', () => {
  expect(layoutLadder(VARIANTS.bare(), { width: 900 }).pages).toEqual([]);
});

test('a track that stops inside its last bar has no irregular bar there', () => {
  const analysis = withBeats(VARIANTS.eights(), 80, 1);
  const geometry = layoutLadder(analysis, { width: 900 });
  const last = rungsOf(geometry).at(-1)!.cells.at(-1)!;
  expect(last).toMatchObject({ bar: 80, beats: 1, oddBeats: false, beatTicks: [] });
  expect(last.width).toBeCloseTo(geometry.barWidth / 4, 6);
});
