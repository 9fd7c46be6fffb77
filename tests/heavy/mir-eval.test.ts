import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import {
  beatScore,
  boundaries,
  boundaryScore,
  cemgil,
  continuity,
  generator,
  informationGain,
  keyScore,
  pairwiseScore,
  pScore,
  tempoScore,
  trimBeats,
  type LabelledInterval,
  type NamedKey,
} from '../../src/evaluation/index.js';
import { MODES, PITCH_CLASSES } from '../../src/units/index.js';

/** mir_eval itself (Raffel et al., ISMIR 2014; Debian package python3-mir-eval) beside ours, on inputs nobody chose. */
const python = ['/usr/bin/python3', 'python3'].find((p) => spawnSync(p, ['-c', 'import mir_eval']).status === 0);
const note = python ? '' : ' (skipped: install the Debian package python3-mir-eval)';
const CASES = 300;

const SCRIPT = `
import json, sys, warnings
warnings.filterwarnings('ignore')
import numpy as np, mir_eval
out = []
for c in json.load(sys.stdin):
    if c['task'] == 'beat':
        r, e = (mir_eval.beat.trim_beats(np.array(c[k], dtype=float)) for k in ('ref', 'est'))
        out.append([mir_eval.beat.f_measure(r, e), *mir_eval.beat.cemgil(r, e), mir_eval.beat.p_score(r, e), *mir_eval.beat.continuity(r, e), mir_eval.beat.information_gain(r, e)])
    elif c['task'] == 'segment':
        (ri, rl), (ei, el) = ((np.array([[s['start'], s['end']] for s in c[k]]), [s['label'] for s in c[k]]) for k in ('ref', 'est'))
        d = [mir_eval.segment.detection(ri, ei, window=w, trim=t) for w in (0.5, 3) for t in (False, True)]
        out.append([v for three in d for v in three] + list(mir_eval.segment.pairwise(ri, rl, ei, el)))
    elif c['task'] == 'key':
        out.append([mir_eval.key.weighted_score(c['ref'], c['est'])])
    else:
        p, one, both = mir_eval.tempo.detection(np.array([c['ref'], c['ref']]), 1.0, np.array([c['est'], c['est']]), tol=0.04)
        out.append([float(one)])
json.dump([[float(v) for v in row] for row in out], sys.stdout)
`;

function theirs(cases: readonly object[]): number[][] {
  const { status, stdout, stderr } = spawnSync(python!, ['-c', SCRIPT], {
    input: JSON.stringify(cases),
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  expect(status, stderr).toBe(0);
  return JSON.parse(stdout) as number[][];
}

function compare(ours: readonly (readonly number[])[], cases: readonly object[]): void {
  const expected = theirs(cases);
  ours.forEach((row, i) =>
    row.forEach((value, k) => expect(value, `case ${i}, score ${k}`).toBeCloseTo(expected[i][k], 9)),
  );
}

describe.skipIf(!python)(`the scores agree with mir_eval on random inputs${note}`, () => {
  it('for beats: wandering, at other levels, off by a part of a beat, with holes and extras', () => {
    const random = generator(11);
    const cases = Array.from({ length: CASES }, () => {
      const ref = wander(random, 0.3 + 0.5 * random(), Math.floor(20 + 100 * random()));
      return { task: 'beat', ref, est: disturbed(random, ref) };
    });
    compare(
      cases.map(({ ref, est }) => {
        const [r, e] = [trimBeats(ref), trimBeats(est)];
        const { score, bestLevel } = cemgil(r, e);
        const { cmlc, cmlt, amlc, amlt } = continuity(r, e);
        return [beatScore(r, e).f, score, bestLevel, pScore(r, e), cmlc, cmlt, amlc, amlt, informationGain(r, e)];
      }),
      cases,
    );
  });

  it('for boundaries, with and without the outermost, and for labels', () => {
    const random = generator(12);
    const cases = Array.from({ length: CASES }, () => {
      const end = 60 + 200 * random();
      return { task: 'segment', ref: segments(random, end), est: segments(random, end) };
    });
    compare(
      cases.map(({ ref, est }) => {
        const hits = [0.5, 3].flatMap((window) =>
          [false, true].flatMap((inner) => {
            const { precision, recall, f } = boundaryScore(boundaries(ref, inner), boundaries(est, inner), window);
            return [precision, recall, f];
          }),
        );
        const { precision, recall, f } = pairwiseScore(ref, est);
        return [...hits, precision, recall, f];
      }),
      cases,
    );
  });

  it('for keys', () => {
    const keys = PITCH_CLASSES.flatMap((tonic) => MODES.map((mode): NamedKey => ({ tonic, mode })));
    const pairs = keys.flatMap((a) => keys.map((b) => [a, b] as const));
    const said = ({ tonic, mode }: NamedKey) => `${tonic} ${mode}`;
    compare(
      pairs.map(([a, b]) => [keyScore(a, b, 'ascending')]),
      pairs.map(([a, b]) => ({ task: 'key', ref: said(a), est: said(b) })),
    );
  });

  it('for tempos at the annotated level', () => {
    const random = generator(13);
    const cases = Array.from({ length: CASES }, () => {
      const ref = 60 + 140 * random();
      return { task: 'tempo', ref, est: ref * (0.92 + 0.16 * random()) };
    });
    compare(
      cases.map(({ ref, est }) => [Number(tempoScore(ref, est).accuracy1)]),
      cases,
    );
  });
});

function wander(random: () => number, period: number, count: number): number[] {
  const beats: number[] = [];
  for (let t = 3 * random(); beats.length < count; t += period * (0.93 + 0.14 * random())) beats.push(t);
  return beats;
}

function disturbed(random: () => number, beats: readonly number[]): number[] {
  const kind = Math.floor(6 * random());
  if (kind === 0) return wander(random, 0.3 + 0.5 * random(), beats.length);
  const middles = beats.slice(1).map((b, i) => (b + beats[i]) / 2);
  const level = [beats, middles, [...beats, ...middles], beats.filter((_, i) => i % 2 === 0), beats][kind - 1];
  const noise = [0.005, 0.03, 0.1][Math.floor(3 * random())];
  const kept = level.filter(() => random() > 0.08).map((t) => t + noise * (2 * random() - 1));
  const extra = level.filter(() => random() < 0.05).map((t) => t + 0.15);
  return [...kept, ...extra].filter((t) => t > 0).sort((a, b) => a - b);
}

function segments(random: () => number, end: number): LabelledInterval[] {
  const starts = Array.from({ length: Math.floor(2 + 12 * random()) }, () => Math.round(1000 * end * random()) / 1000);
  const times = [...new Set([0, ...starts, Math.round(1000 * end) / 1000])].sort((a, b) => a - b);
  return times.slice(1).map((t, i) => ({ start: times[i], end: t, label: 'ABCD'[Math.floor(4 * random())] }));
}
