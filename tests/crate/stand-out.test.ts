import { expect, it } from 'vitest';
import { outlineOf, standingOut, type TrackOutline } from '../../src/crate/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const outline = outlineOf(sampleAnalysis());
const at = (bpm: number, lufs: number | null = -9): TrackOutline => ({
  ...outline,
  tempo: { ...outline.tempo, bpm },
  loudness: { ...outline.loudness, integratedLufs: lufs },
});

it('names what lies more than three scaled median absolute deviations from the middle, furthest first', () => {
  // Median 124; the deviations are 4 2 1 0 1 2 50 and their median 2, so that 3 · 1.4826 · 2 = 8.9 is the limit (derived).
  const crate = [120, 122, 123, 124, 125, 126, 174].map((bpm) => at(bpm));
  expect(standingOut(crate)).toEqual([
    {
      track: crate[6],
      kind: 'tempo',
      value: 174,
      median: 124,
      deviations: expect.closeTo(50 / (1.4826 * 2), 6) as number,
    },
  ]);
});

it('makes nothing of small differences in a crate of all but equal tracks, of few tracks, or of what was not measured', () => {
  expect(standingOut([124, 124, 124, 124, 124, 126].map((bpm) => at(bpm)))).toEqual([]);
  expect(standingOut([100, 110, 120, 200].map((bpm) => at(bpm)))).toEqual([]);
  expect(standingOut([1, 2, 3, 4, 5, 6].map(() => at(124, null)))).toEqual([]);
});
