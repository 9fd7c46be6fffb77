import { describe, expect, it } from 'vitest';
import { matchTracks, type MatchPlan } from '../../src/matching/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { LANGUAGES, matchWordsOf, sayMatch, type Language } from '../../src/wording/index.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

const A: readonly SamplePart[] = [
  { function: 'intro', phrases: [16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'outro', phrases: [16], layers: ['kick', 'percussion', 'voice'] },
];
const B: readonly SamplePart[] = [
  { function: 'intro', phrases: [16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'outro', phrases: [16], layers: ['kick', 'percussion'] },
];

/** A made-up track in which layers are either there or not, as in a plain analysis. */
function plainTrack(parts: readonly SamplePart[]): TrackAnalysis {
  const track = sampleAnalysis(parts);
  const plain = (row: readonly (number | null)[]) => row.map((p) => (p !== null && p < 0.3 ? 0 : p));
  return { ...track, layers: { ...track.layers, bass: plain(track.layers.bass), voice: plain(track.layers.voice) } };
}

/** A track in which a layer is as present in some bars as given. */
function presentIn(
  track: TrackAnalysis,
  layer: 'bass' | 'voice',
  bars: readonly number[],
  presence: number,
): TrackAnalysis {
  const layers = { ...track.layers, [layer]: track.layers[layer].map((p, i) => (bars.includes(i + 1) ? presence : p)) };
  return { ...track, layers };
}
const bassOnBass = (plan: MatchPlan) =>
  plan.cautions.filter((r) => (r.kind === 'layer-clash' || r.kind === 'layer-may-clash') && r.layer === 'bass');
const planOf = (a: TrackAnalysis, b: TrackAnalysis, is: (plan: MatchPlan) => boolean): MatchPlan => {
  const plan = matchTracks(a, b, { plans: 50 }).plans.find(is);
  if (!plan) throw new Error('no such plan');
  return plan;
};

describe('a clash that is not sure', () => {
  const [a, b] = [plainTrack(A), plainTrack(B)];
  const inOutro = [49, 50, 51, 52, 53, 54, 55, 56];
  const overlapsOutro = (plan: MatchPlan) =>
    plan.start.a.bar <= 49 && plan.end.a.bar >= 57 && plan.start.b.bar === 1 && plan.meet.a.bar === 49;

  it('is not told where nothing is heard', () => {
    const plan = planOf(a, b, overlapsOutro);
    expect(bassOnBass(plan)).toEqual([]);
    expect(plan.reasons.some(({ kind }) => kind === 'bass-free')).toBe(true);
  });

  it('is told as possible where a layer is faint in one record, over the eight bars that it may last', () => {
    const plan = planOf(presentIn(a, 'bass', [51], 0.05), b, overlapsOutro);
    expect(bassOnBass(plan)).toEqual([{ kind: 'layer-may-clash', layer: 'bass', fromA: 49, toA: 56, bars: 8 }]);
    expect(plan.reasons.some(({ kind }) => kind === 'bass-free')).toBe(false);
  });

  it('is told surely where both are plain', () => {
    const plan = planOf(presentIn(a, 'bass', inOutro, 0.9), b, overlapsOutro);
    expect(bassOnBass(plan)).toMatchObject([{ kind: 'layer-clash', fromA: 49, toA: 56 }]);
  });

  it('is told for voices at less: a voice is missed more often than a bass', () => {
    const plan = planOf(a, presentIn(b, 'voice', [17], 0.005), overlapsOutro);
    expect(plan.cautions).toContainEqual({ kind: 'layer-may-clash', layer: 'voice', fromA: 49, toA: 56, bars: 8 });
  });

  it('is told behind a bass that leaves while the low end gets no softer', () => {
    const events = a.events.map((e) => (e.layer === 'bass' && e.change === 'leaves' ? { ...e, decibels: 3 } : e));
    expect(bassOnBass(planOf({ ...a, events }, b, overlapsOutro))).toMatchObject([
      { kind: 'layer-may-clash', fromA: 49, toA: 56 },
    ]);
  });
});

describe('a start that is not surely borne out', () => {
  const [a, b] = [plainTrack(A), plainTrack(B)];
  const unsure = { ...b, downbeat: { ...b.downbeat, confidence: 0.06 } };

  it('is told first of all, and for all plans where none is surer', () => {
    for (const plan of matchTracks(a, unsure).plans) {
      expect(plan.cautions[0]).toEqual({
        kind: 'start-unsure',
        value: 0.06,
        deck: 'b',
        subject: 'downbeat',
        surer: null,
      });
      expect(plan.cautions.some(({ kind }) => kind === 'confidence')).toBe(false);
    }
  });

  it('is told of records that cannot be blended as well', () => {
    const [cut] = matchTracks(a, { ...unsure, tempo: { ...b.tempo, bpm: 90 } }).plans;
    expect(cut).toMatchObject({ kind: 'cut' });
    expect(cut.cautions[0]).toMatchObject({ kind: 'start-unsure', surer: null });
  });

  it('names the best plan that rests on surer answers', () => {
    const sure = matchTracks(a, b);
    expect(sure.plans[0].cautions.some(({ kind }) => kind === 'start-unsure')).toBe(false);
    const phrase = a.phrases.find(({ startBar }) => startBar === sure.plans[0].start.a.bar)!;
    const phrases = a.phrases.map((p) => (p === phrase ? { ...p, confidence: 0.3 } : p));
    const { plans } = matchTracks({ ...a, phrases }, b, { plans: 20 });
    const told = plans.flatMap((p) => p.cautions.filter((c) => c.kind === 'start-unsure'));
    expect(told.length).toBeGreaterThan(0);
    for (const { surer } of told) expect(plans[surer! - 1].confidence.value).toBeGreaterThanOrEqual(0.6);
  });

  it.each(Object.keys(LANGUAGES) as Language[])('is a whole sentence: %s', (language) => {
    const answers = { deck: 'b', subject: 'downbeat' } as const;
    for (const [value, surer] of [
      [0.06, null],
      [null, null],
      [0.4, 3],
    ] as const)
      // prettier-ignore
      expect(sayMatch({ kind: 'start-unsure', value, surer, ...answers }, language)).toMatch(/^\p{Lu}.*\.$/u);
    expect(
      matchWordsOf(language).remark({ kind: 'layer-may-clash', layer: 'voice', fromA: 1, toA: 8, bars: 8 }),
    ).toMatch(/1.8/);
  });
});
