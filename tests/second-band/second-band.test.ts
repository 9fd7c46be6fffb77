import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { createLoudnessMeter } from '../../src/loudness/index.js';
import { IRREGULARITY_KINDS } from '../../src/units/index.js';
import { clockOf } from './clock.js';
import { drawPlan, play } from './index.js';
import { CEILING } from './mix/master.js';
import { truthOf } from './truth.js';

const seeds = Array.from({ length: 300 }, (_, i) => i + 900_000);
const truths = seeds.map((seed) => {
  const plan = drawPlan(seed);
  return { plan, truth: truthOf(plan, clockOf(plan), () => true) };
});

describe('the truth of the second band', () => {
  it('has bars that tile the beats, phrases that tile the bars, sections that are unions of phrases', () => {
    for (const { truth } of truths) {
      expect(truth.bars.reduce((sum, b) => sum + b.beats, 0)).toBe(truth.beats.length);
      expect(truth.phrases.reduce((sum, p) => sum + p.bars, 0)).toBe(truth.bars.length);
      expect(truth.sections.reduce((sum, s) => sum + s.bars, 0)).toBe(truth.bars.length);
      const starts = new Set(truth.phrases.map((p) => p.startBar));
      for (const s of truth.sections) expect(starts.has(s.startBar)).toBe(true);
    }
  });

  it('calls the first main section after a build-up or breakdown a drop, and no other', () => {
    for (const { truth } of truths) {
      truth.sections.forEach((s, i) => {
        const before = truth.sections[i - 1]?.function;
        const lands = before === 'build-up' || before === 'breakdown';
        if (s.function === 'drop') expect(lands).toBe(true);
        if (s.function === 'main') expect(lands).toBe(false);
      });
    }
  });

  it('changes layers at every boundary of a section that is not beatless on both sides', () => {
    for (const { truth, plan } of truths) {
      plan.sections.slice(1).forEach((section, i) => {
        const [a, b] = [plan.sections[i].phrases.at(-1)!, section.phrases[0]];
        if (a.manner === 'held' || b.manner === 'held') return;
        const start = truth.sections[i + 1].start;
        const near = truth.events.some((e) => Math.abs(e.time - start) < (4 * 60) / plan.bpm);
        expect(near || b.late !== null).toBe(true);
      });
    }
  });

  it('plants every kind of irregularity in some tracks, and none in about half of them', () => {
    const kinds = new Set(truths.flatMap(({ truth }) => truth.irregularities.map((i) => i.kind)));
    expect([...kinds].sort()).toEqual([...IRREGULARITY_KINDS].sort());
    const regular = truths.filter(({ truth }) => truth.irregularities.length === 0).length;
    expect(regular / truths.length).toBeGreaterThan(0.35);
    expect(regular / truths.length).toBeLessThan(0.65);
  });
});

describe('the sound of the second band', () => {
  it.each([900_001, 900_002, 900_003])(
    'seed %i: stays under a true peak of −1, is never silent, and is the same again',
    (seed) => {
      const plan = drawPlan(seed, { sections: 2 });
      const { left, right, truth } = play(plan);
      const meter = createLoudnessMeter(44_100, 2);
      meter.push([left, right]);
      const { truePeakDbtp, integratedLufs } = meter.finish();
      expect(truePeakDbtp).toBeLessThanOrEqual(CEILING);
      expect(integratedLufs).toBeGreaterThan(-24);
      expect(truth.events.some((e) => e.change === 'enters')).toBe(true);
      const digest = (x: Float32Array) => createHash('sha256').update(Buffer.from(x.buffer)).digest('hex');
      expect(digest(play(drawPlan(seed, { sections: 2 })).left)).toBe(digest(left));
    },
  );
});
