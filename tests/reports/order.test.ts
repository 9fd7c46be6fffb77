import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printOrder } from '../../reports/index.js';
import { drawCurve } from '../../reports/order/curve.js';
import { eveningOf } from '../../reports/order/evening.js';
import { orderTracks, wishesKept, type OrderWishes } from '../../src/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { readPdf } from './read-pdf.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-order-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const tracks = [124, 126, 140, 122].map((bpm, i) => {
  const track = sampleAnalysis(undefined, { title: `Ferry ${i + 1}`, bpm });
  return { ...track, loudness: { ...track.loudness, integratedLufs: -12 + i } };
});
const wishes: OrderWishes = { start: 0, before: [[1, 2]], largestStep: 3, shape: 'rise' };
const order = orderTracks(tracks, { wishes });

describe('a running order on paper', () => {
  it('shows the curves, the list, and which wishes are kept and where not', async () => {
    const file = join(folder, 'order.pdf');
    await printOrder(order, tracks, file, { wishes });
    const { text } = await readPdf(await readFile(file));
    for (const { source } of tracks) expect(text).toContain(source.tags.title);
    for (const word of ['Running order', 'Loudness as measured, LUFS', 'Layers heard in a bar', 'dashed: as wished'])
      expect(text).toContain(word);
    expect(text).toContain('Begins with Ferry 1');
    expect(text).toMatch(/At most 3 BPM a step; more into [\d, ]+: not kept/);
  });

  it('speaks German and takes as many tracks as there are', async () => {
    const many = Array.from({ length: 60 }, (_, i) => tracks[i % 4]);
    const file = join(folder, 'viele.pdf');
    await printOrder(orderTracks(many, { withPlans: false }), many, file, { language: 'de' });
    const { text, pages } = await readPdf(await readFile(file));
    expect(text).toContain('Reihenfolge');
    expect(pages.length).toBeGreaterThan(1);
  });
});

describe('the wishes of an order', () => {
  it('are told one by one, kept or not', () => {
    const told = Object.fromEntries(wishesKept(order, wishes).map((o) => [o.wish, o]));
    expect(told['start']).toEqual({ wish: 'start', track: 0, kept: true });
    expect(told['before']).toMatchObject({ kept: true });
    const large = order.steps.flatMap(({ bpmStep }, i) => (Math.abs(bpmStep) > 3 ? [i + 2] : []));
    expect(large.length).toBeGreaterThan(0);
    expect(told['largest-step']).toEqual({ wish: 'largest-step', bpm: 3, missed: large, kept: false });
    expect(wishesKept(order, {})).toEqual([]);
  });
});

describe('the curve of the evening', () => {
  it('runs on the clock: each record starts where the plan starts it on the one before', () => {
    const evening = eveningOf(order, tracks);
    order.steps.forEach(({ match }, i) => {
      const before = i === 0 ? 0 : (order.steps[i - 1].match?.plans[0].start.b.time ?? 0);
      const { start } = match!.plans[0];
      expect(evening[i].to - evening[i].from).toBeCloseTo(start.a.time - before, 6);
      expect(evening[i + 1].from).toBe(evening[i].to);
    });
  });

  it('goes as high as the value says: the loudest on top, the softest on the floor, the one between by its share', () => {
    const paths: string[] = [];
    const pen = { path: (d: string) => void paths.push(d), text: () => undefined };
    const points = [-12, -8, -9].map((value, i) => ({ at: 10 * i, value }));
    drawCurve(pen, points, 20, { x: 0, y: 0, width: 100, height: 40, text: 7 }, String);
    expect(paths).toContain('M0.00 40.00L50.00 0.00L100.00 10.00');
    expect(paths.join()).not.toMatch(/NaN|A/);
  });
});
