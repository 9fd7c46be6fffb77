import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoCrate, renderArrangement, type ArrangementTruth } from '../../src/arranger/index.js';
import { writeWav } from '../../src/audio/index.js';
import { analyseTrack, trackAnalysisSchema, type TrackAnalysis } from '../../src/track/index.js';
import { wordsOf } from '../../src/wording/index.js';
import { fMeasure } from '../rhythm/drums.js';
import { expectConsistent } from './consistent.js';
import { notInCountTable, sentencesOf } from './looked-up.js';

/**
 * The main job on the demo crate, against the exact truth of its arrangements. A self-test: our arranger judged by our
 * analysis. Beat window: ±70 ms (Davies, Degara & Plumbley 2009; mir_eval `beat`).
 */
describe.each(demoCrate().map((track, i) => ({ number: i + 1, title: track.title, track })))(
  'demo track $number, $title',
  ({ track }) => {
    let folder: string;
    let truth: ArrangementTruth;
    let found: TrackAnalysis;

    beforeAll(async () => {
      folder = await mkdtemp(join(tmpdir(), 'barwise-truth-'));
      const rendering = renderArrangement(track.arrangement);
      truth = rendering.truth;
      const file = join(folder, 'track.wav');
      await writeWav(file, [rendering.left, rendering.right], rendering.sampleRate);
      found = await analyseTrack(file);
    });
    afterAll(() => rm(folder, { recursive: true, force: true }));

    it('is an analysis by the schema, whose bars tile phrases and whose phrases tile sections', () => {
      expect(trackAnalysisSchema.parse(found)).toEqual(found);
      const phraseStarts = new Set(found.phrases.map((p) => p.startBar));
      found.phrases.slice(1).forEach((p, i) => expect(p.startBar).toBe(found.phrases[i].endBar + 1));
      found.sections.slice(1).forEach((s, i) => expect(s.startBar).toBe(found.sections[i].endBar + 1));
      found.sections.forEach((s) => expect(phraseStarts.has(s.startBar)).toBe(true));
    });

    it('has the tempo and the beats', () => {
      const errors = truth.beats.map((t) => Math.min(...found.beats.map((b) => Math.abs(b - t)))).sort((a, b) => a - b);
      if (truth.irregularities.some((i) => i.kind === 'drift')) {
        expect(found.tempo.steadiness).toBe('drifting');
        expect(fMeasure(truth.beats, found.beats)).toBeGreaterThanOrEqual(0.95);
      } else {
        expect(found.tempo.steadiness).toBe('constant');
        expect(Math.abs(found.tempo.bpm - truth.bpm)).toBeLessThan(0.02);
        expect(fMeasure(truth.beats, found.beats)).toBeGreaterThanOrEqual(0.99);
        expect(errors[errors.length >> 1]).toBeLessThanOrEqual(0.003);
      }
      expect(found.metre.beatsPerBar).toBe(truth.beatsPerBar);
    });

    it('has the downbeats and the phrase starts', () => {
      const bars = found.bars.filter((b) => b.number >= 1).map((b) => b.start);
      expect(
        fMeasure(
          truth.bars.map((b) => b.start),
          bars,
        ),
      ).toBeGreaterThanOrEqual(0.98);
      const half = 30 / truth.bpm;
      expect(
        fMeasure(
          truth.phrases.map((p) => p.start),
          found.phrases.map((p) => p.start),
          half,
        ),
      ).toBeGreaterThanOrEqual(0.9);
    });

    it('fits together, and is told in no bar and at no time that its count table does not have', () => {
      expectConsistent(found);
      for (const language of ['en', 'de'] as const)
        expect(notInCountTable(sentencesOf(found, language), found, language)).toEqual([]);
      // Every number of the evidence has words of its own, not just its name.
      const told = found.irregularities.flatMap(({ evidence }) =>
        Object.entries(evidence).map(([name, value]) => wordsOf('en').story.number(name, value)),
      );
      expect(told.filter((text) => text === null || /^[a-z ]+: /.test(text))).toEqual([]);
    });

    it('names every planted irregularity at its bar, and no other', () => {
      const name = (i: { kind: string; bar: number }) => `${i.kind} at ${i.bar}`;
      expect(found.irregularities.map(name).sort()).toEqual(truth.irregularities.map(name).sort());
      for (const { explanation } of found.irregularities) expect(explanation).toMatch(/^[A-Z].*\.$/);
    });
  },
);
