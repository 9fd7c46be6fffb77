import { describe, expect, it } from 'vitest';
import {
  beatScore,
  boundaries,
  boundaryScore,
  cemgil,
  continuity,
  informationGain,
  keyScore,
  pairwiseScore,
  pScore,
  spanning,
  trimBeats,
  type LabelledInterval,
  type NamedKey,
} from '../../src/evaluation/index.js';
import type { Mode, PitchClass } from '../../src/units/index.js';
import { expected, fixturesFound, NUMBERS, rows, skipNote } from './mir-eval.js';

const FLATS: Record<string, string> = { db: 'C#', eb: 'D#', gb: 'F#', ab: 'G#', bb: 'A#' };

describe.skipIf(!fixturesFound)(`the scores agree with mir_eval's own expectations${skipNote}`, () => {
  it.each(NUMBERS)('beat%s', (n) => {
    const [reference, estimate] = ['ref', 'est'].map((side) =>
      trimBeats(rows('beat', `${side}${n}.txt`).map((r) => Number(r[0]))),
    );
    const e = expected('beat', n);
    const levels = continuity(reference, estimate);
    const gaussian = cemgil(reference, estimate);
    expect(beatScore(reference, estimate).f).toBeCloseTo(e['F-measure'], 9);
    expect(gaussian.score).toBeCloseTo(e['Cemgil'], 9);
    expect(gaussian.bestLevel).toBeCloseTo(e['Cemgil Best Metric Level'], 9);
    expect(pScore(reference, estimate)).toBeCloseTo(e['P-score'], 9);
    expect(levels.cmlc).toBeCloseTo(e['Correct Metric Level Continuous'], 9);
    expect(levels.cmlt).toBeCloseTo(e['Correct Metric Level Total'], 9);
    expect(levels.amlc).toBeCloseTo(e['Any Metric Level Continuous'], 9);
    expect(levels.amlt).toBeCloseTo(e['Any Metric Level Total'], 9);
    expect(informationGain(reference, estimate)).toBeCloseTo(e['Information gain'], 9);
  });

  it.each(NUMBERS)('segment%s', (n) => {
    const read = (side: string): LabelledInterval[] =>
      rows('segment', `${side}${n}.lab`).map(([start, end, ...label]) => ({
        start: Number(start),
        end: Number(end),
        label: label.join(' '),
      }));
    const [ref, est] = [read('ref'), read('est')];
    const end = ref[ref.length - 1].end;
    const [reference, estimate] = [spanning(ref, end), spanning(est, end)];
    const e = expected('segment', n);
    for (const [window, name] of [
      [0.5, '0.5'],
      [3, '3.0'],
    ] as const) {
      // prettier-ignore
      const score = boundaryScore(boundaries(reference), boundaries(estimate), window);
      expect(score.f).toBeCloseTo(e[`F-measure@${name}`], 9);
      expect(score.precision).toBeCloseTo(e[`Precision@${name}`], 9);
      expect(score.recall).toBeCloseTo(e[`Recall@${name}`], 9);
    }
    const pairwise = pairwiseScore(reference, estimate);
    expect(pairwise.f).toBeCloseTo(e['Pairwise F-measure'], 9);
    expect(pairwise.precision).toBeCloseTo(e['Pairwise Precision'], 9);
    expect(pairwise.recall).toBeCloseTo(e['Pairwise Recall'], 9);
  });

  it.each(NUMBERS)('key%s', (n) => {
    const [reference, estimate] = ['ref', 'est'].map((side): NamedKey => {
      const [tonic, mode] = rows('key', `${side}${n}.txt`)[0];
      return { tonic: (FLATS[tonic.toLowerCase()] ?? tonic) as PitchClass, mode: mode as Mode };
    });
    expect(keyScore(reference, estimate, 'ascending')).toBeCloseTo(expected('key', n)['Weighted Score'], 9);
  });
});

describe('restated from mir_eval', () => {
  // Numbers of fixture segment00 and its expected scores: mir_eval, tests/data/segment (read).
  const reference = labelled([0, 0.383, 7.332, 27.109, 47.015, 67.123, 87.103, 107.649, 128.114, 142.763], '-IVVBGVBO');
  const estimate = labelled(
    [0, 6, 14.8, 26.4, 34.8, 46.6, 52.6, 58, 67.2, 85.8, 95, 107.2, 114, 119, 127.8, 133.8, 138.4, 142.763],
    'ABCBCDEFGBCDEFDEH',
  );

  it('segment00 scores 0.4285714 at half a second, 0.6428571 at three and 0.6203514 pairwise', () => {
    expect(boundaryScore(boundaries(reference), boundaries(estimate), 0.5).f).toBeCloseTo(0.4285714, 6);
    expect(boundaryScore(boundaries(reference), boundaries(estimate), 3).f).toBeCloseTo(0.6428571, 6);
    expect(pairwiseScore(reference, estimate).f).toBeCloseTo(0.6203514, 6);
  });
});

function labelled(times: number[], labels: string): LabelledInterval[] {
  return [...labels].map((label, i) => ({ start: times[i], end: times[i + 1], label }));
}
