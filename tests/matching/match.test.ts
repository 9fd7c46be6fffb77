import { describe, expect, it } from 'vitest';
import { matchTempos, matchTracks, meetKeys, orderTracks, semitonesOf } from '../../src/matching/index.js';
import { LANGUAGES, sayMatch, type Language } from '../../src/wording/index.js';
import { bestOrder, costOf } from '../../src/matching/order/exact.js';
import { goodOrder } from '../../src/matching/order/search.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

const RECORD: readonly SamplePart[] = [
  { function: 'intro', phrases: [16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'breakdown', phrases: [16], layers: ['harmony'] },
  { function: 'drop', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'outro', phrases: [16], layers: ['kick', 'percussion'] },
];

describe('tempo', () => {
  it('moves the pitch by 12·log2(r) semitones: 124 to 126 BPM is +1.613 % and +0.277 semitones (derived)', () => {
    const { rateB } = matchTempos(126, 124);
    expect((rateB - 1) * 100).toBeCloseTo(1.613, 3);
    expect(semitonesOf(rateB)).toBeCloseTo(0.277, 3);
  });

  it('takes half and double tempo where that is nearer', () => {
    expect(matchTempos(87, 174).ratio).toBe(2);
    expect(matchTempos(174, 86).ratio).toBe(0.5);
    expect(matchTempos(174, 86).rateB).toBeCloseTo(87 / 86, 9);
  });

  it('meets in the middle so that both records change by the same factor', () => {
    const { rateA, rateB, bpm } = matchTempos(120, 126, { change: 'both' });
    expect(rateA).toBeCloseTo(1 / rateB, 9);
    expect(bpm).toBeCloseTo(Math.sqrt(120 * 126), 9);
  });

  it('says when the fader does not reach', () => {
    expect(matchTempos(128, 100).fits).toBe(false);
    expect(matchTempos(128, 100, { range: 0.5 }).fits).toBe(true);
  });
});

describe('keys', () => {
  // Circle of fifths, relative and parallel keys: elementary music theory; the relations are those that the MIREX key
  // score and mir_eval `key` tell apart.
  it.each([
    ['A', 'minor', 'A', 'minor', 'same', 0],
    ['C', 'major', 'A', 'minor', 'relative', 0],
    ['A', 'minor', 'E', 'minor', 'fifth', 1],
    ['A', 'minor', 'D', 'minor', 'fifth', 1],
    ['C', 'major', 'C', 'minor', 'parallel', 3],
    ['C', 'major', 'F#', 'major', 'other', 6],
  ] as const)('%s %s and %s %s are %s', (tonic, mode, other, otherMode, relation, fifths) => {
    expect(meetKeys({ tonic, mode }, { tonic: other, mode: otherMode })).toMatchObject({ relation, fifths, cents: 0 });
  });

  it('is moved by the tempo change with key lock off', () => {
    const moved = meetKeys({ tonic: 'C', mode: 'major' }, { tonic: 'B', mode: 'major' }, semitonesOf(1.06));
    expect(moved.relation).toBe('same');
    expect(moved.cents).toBe(1);
  });
});

describe('a plan', () => {
  const a = sampleAnalysis(RECORD, { bpm: 126 });
  const b = sampleAnalysis(RECORD, { bpm: 124 });
  const match = matchTracks(a, b);
  const [best] = match.plans;

  it('lets B arrive where A makes room, phrase one on phrase one', () => {
    expect(best.kind).toBe('blend');
    expect(best.meet.functionA).toBe('outro');
    expect(best.meet.a.bar).toBe(97);
    expect(best.meet.functionB).toBe('main');
    expect(best.start).toMatchObject({ a: { bar: 81, phraseBar: 1 }, b: { bar: 1 }, countInFrom: { bar: 77 } });
    expect(best.start.a.time).toBeCloseTo(0.42 + (80 * 4 * 60) / 126, 3);
  });

  it('never has two basses at once without saying so', () => {
    for (const plan of match.plans) {
      for (const { a: x, b: y } of plan.steps) {
        if (x === null || y === null || x.bar >= plan.end.a.bar) continue;
        const both = [a, b].every((t, i) => (t.layers.bass[(i === 0 ? x.bar : y.bar) - 1] ?? 0) > 0.5);
        const said = plan.cautions.some((c) => c.kind === 'layer-clash' && c.fromA <= x.bar && c.toA >= x.bar);
        if (both) expect(said).toBe(true);
      }
    }
  });

  it('counts bars and time left down to nothing', () => {
    const left = best.steps.map((s) => s.barsLeft);
    expect(left).toEqual([...left].sort((x, y) => y - x));
    expect(best.steps.at(-1)).toMatchObject({ barsLeft: 0, timeLeft: 0, actions: ['a-out'] });
  });

  it('carries the weakest confidence of both analyses', () => {
    expect(best.confidence.value).toBe(0.85);
    const unsure = matchTracks({ ...a, downbeat: { ...a.downbeat, confidence: 0.2 } }, b).plans[0];
    expect(unsure.confidence).toEqual({ value: 0.2, deck: 'a', subject: 'downbeat' });
  });

  it('turns the louder record down and raises none', () => {
    const loud = matchTracks(
      { ...a, loudness: { ...a.loudness, integratedLufs: -8 } },
      { ...b, loudness: { ...b.loudness, integratedLufs: -11 } },
    );
    expect(loud.loudness).toEqual({ differenceLu: -3, gainA: -3, gainB: 0 });
  });

  it('says when records cannot be blended, and still gives a start', () => {
    const far = matchTracks(a, sampleAnalysis(RECORD, { bpm: 105 }));
    expect(far.obstacles[0].kind).toBe('tempo-out-of-range');
    expect(far.plans[0].kind).toBe('cut');
    const waltz = matchTracks(a, sampleAnalysis(RECORD, { bpm: 126, beatsPerBar: 3 }));
    expect(waltz.obstacles).toContainEqual({ kind: 'metres-differ', a: 4, b: 3 });
  });

  it('sees where a bar with a beat too many parts the ones, and keeps them together at the change-over', () => {
    const beats = a.beats.slice();
    const bars = a.bars.map((bar) => ({ ...bar }));
    const odd = bars[88]; // bar 89, in the overlap before the change-over
    const at = beats.findIndex((t) => Math.abs(t - bars[89].start) < 0.001);
    const beat = 60 / 126;
    beats.splice(at, 0, beats[at]);
    for (let i = at + 1; i < beats.length; i++) beats[i] += beat;
    odd.beats = 5;
    for (const bar of bars.slice(89)) bar.start += beat;
    const irregular = { ...a, beats, bars };
    for (const plan of matchTracks(irregular, b).plans) {
      const crosses = plan.start.a.bar <= 89 && plan.end.a.bar > 89;
      const after = plan.alignment.filter((s) => s.fromA >= plan.meet.a.bar);
      expect(after.every((s) => s.beats === 0)).toBe(true);
      const parted = plan.alignment.some((s) => s.beats !== 0);
      if (parted) {
        expect(crosses).toBe(true);
        expect(plan.cautions.some((c) => c.kind === 'ones-apart')).toBe(true);
      }
    }
  });

  it.each(Object.keys(LANGUAGES) as Language[])('says everything in whole sentences: %s', (language) => {
    for (const plan of match.plans) {
      for (const remark of [...plan.reasons, ...plan.cautions]) {
        expect(sayMatch(remark, language)).toMatch(/^[\p{Lu}\d].*\.$/u);
        expect(sayMatch(remark, language)).not.toMatch(/undefined|NaN|null/);
      }
    }
  });

  it('is made for any two records without a fault: beatless, short, single bars', () => {
    const shapes: readonly (readonly SamplePart[])[] = [
      [{ function: 'main', phrases: [1], layers: ['kick'] }],
      [{ function: 'intro', phrases: [4], layers: [] }],
      RECORD,
      [{ function: 'drop', phrases: [8, 7, 9], layers: ['kick', 'bass', 'voice'] }],
    ];
    for (const x of shapes) {
      for (const y of shapes) {
        const found = matchTracks(sampleAnalysis(x), sampleAnalysis(y));
        expect(found.plans.length).toBeGreaterThan(0);
        for (const plan of found.plans) {
          expect(plan.score).toBeGreaterThanOrEqual(0);
          expect(plan.end.a.beat).toBeGreaterThanOrEqual(plan.start.a.beat);
        }
      }
    }
  });
});

describe('a running order', () => {
  const crate = [120, 128, 124, 122, 126].map((bpm) => sampleAnalysis(RECORD, { bpm, title: `${bpm}` }));
  const bpms = (order: ReturnType<typeof orderTracks>) => order.tracks.map((t) => crate[t.index].tempo.bpm);

  it('goes by small steps of tempo where keys are equal', () => {
    const found = bpms(orderTracks(crate));
    expect([found.join(), found.slice().reverse().join()]).toContain('120,122,124,126,128');
  });

  it('obeys wishes', () => {
    const order = orderTracks(crate, { wishes: { start: 2, end: 0, before: [[1, 4]] } });
    const places = order.tracks.map((t) => t.index);
    expect(places[0]).toBe(2);
    expect(places[4]).toBe(0);
    expect(places.indexOf(1)).toBeLessThan(places.indexOf(4));
  });

  it('refuses wishes that contradict each other', () => {
    expect(() =>
      orderTracks(crate, {
        wishes: {
          before: [
            [0, 1],
            [1, 2],
            [2, 0],
          ],
        },
      }),
    ).toThrow(expect.objectContaining({ code: 'contradiction' }) as Error);
    expect(() => orderTracks(crate, { wishes: { start: 9 } })).toThrow(
      expect.objectContaining({ code: 'bad-option' }) as Error,
    );
  });

  it('follows a shape for loudness and density', () => {
    const even = sampleAnalysis(RECORD, { bpm: 124 });
    const loud = [2, 0, 4, 1, 3].map((i) => ({ ...even, loudness: { ...even.loudness, integratedLufs: -14 + i } }));
    const levels = orderTracks(loud, { wishes: { shape: 'rise' } }).tracks.map((t) => t.integratedLufs);
    expect(levels).toEqual([-14, -13, -12, -11, -10]);
  });

  it('finds for few tracks what trying every order finds', () => {
    const costs = randomCosts(7, 5);
    const all = permutations([0, 1, 2, 3, 4, 5, 6]).map((order) => costOf(costs, order));
    expect(costOf(costs, bestOrder(costs))).toBeCloseTo(Math.min(...all), 9);
  });

  it('comes within a tenth of the best where it searches, and obeys what must come first', () => {
    for (let seed = 1; seed <= 5; seed++) {
      const costs = { ...randomCosts(12, seed), first: Array.from({ length: 12 }, (_, i) => (i === 3 ? [7] : [])) };
      const found = goodOrder(costs);
      expect(found.slice().sort((x, y) => x - y)).toEqual(Array.from({ length: 12 }, (_, i) => i));
      expect(found.indexOf(7)).toBeLessThan(found.indexOf(3));
      expect(costOf(costs, found)).toBeLessThan(1.15 * costOf(costs, bestOrder(costs)));
    }
  });
});

function randomCosts(count: number, seed: number) {
  let state = seed;
  const random = () => (state = (state * 16807) % 2147483647) / 2147483647; // Park & Miller 1988
  return {
    count,
    step: Float64Array.from({ length: count * count }, random),
    place: Float64Array.from({ length: count * count }, () => random() * 0.3),
    first: Array.from({ length: count }, () => [] as number[]),
  };
}

function permutations(items: readonly number[]): number[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item) => permutations(items.filter((x) => x !== item)).map((rest) => [item, ...rest]));
}
