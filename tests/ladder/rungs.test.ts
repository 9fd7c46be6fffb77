import { describe, expect, test } from 'vitest';
import { layoutLadder, PAPER_METRICS, type LadderGeometry, type Rung } from '../../src/ladder/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { VARIANTS, withBeats } from './variants.js';

const rungsOf = (geometry: LadderGeometry): readonly Rung[] => geometry.pages.flatMap((p) => p.rungs);

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
