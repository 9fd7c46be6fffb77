import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { estimateOfBeats, readTruth, scoreTrack } from '../../src/evaluation/index.js';
import * as formWeights from '../../src/form/weights/index.js';
import * as learned from '../../src/learned/index.js';
import { calibrated, PHASE_WEIGHTS } from '../../src/learned/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { fitCalibrations } from '../corpus/held-out/calibrate.js';
import { factsOf } from '../corpus/held-out/facts.js';
import { FIGURES, over, verdict, worse, type Pair } from '../corpus/held-out/figures.js';
import { gridFolds } from '../corpus/held-out/grid-folds.js';
import { keptFit } from '../corpus/held-out/kept.js';
import { logLook } from '../corpus/held-out/looks.js';
import { behind, failureTable, figureTable, songFigures } from '../corpus/held-out/tables.js';
import { FITTED, NOT_HELD_OUT, useWeights } from '../corpus/held-out/weights.js';
import { whatIsWrong } from '../corpus/held-out/wrong.js';
import type { Outcome } from '../corpus/job.js';
import type { Example } from '../corpus/train-examples.js';
import { refused } from '../corpus/song.js';
import { isLocked } from '../corpus/train-folds.js';

const beats = Array.from({ length: 60 }, (_, i) => i * 0.5);
const truth = readTruth({
  id: 'invented-song',
  group: 'dance',
  bpm: 120,
  duration_s: 30,
  beats,
  downbeats: beats.filter((_, i) => i % 4 === 0),
});

function outcome(cut: number, said: readonly number[]): Outcome {
  const scores = { barwise: scoreTrack(truth, estimateOfBeats(said)) };
  return { id: 'invented-song', group: 'dance', maker: 'invented', cut, scores, judgements: [], irregularities: null, layers: null, note: '', seconds: 1, duration: 30 }; // prettier-ignore
}

function figure(name: string) {
  return FIGURES.find((f) => f.name === name)!;
}

describe('held-out figures', () => {
  afterEach(() => useWeights(null));

  it('take the worse of a song and its cut copy, be it a share or an error', () => {
    const pair = { whole: outcome(0, beats.map((t) => t + 0.001)), cut: outcome(3, beats.map((t) => t + 0.004)) }; // prettier-ignore
    expect(worse(pair, 'barwise', figure('beat error, median (ms), onsets verified'))).toBeCloseTo(4, 6);
    const half = { whole: outcome(0, beats), cut: outcome(3, beats.filter((_, i) => i % 2 === 0)) }; // prettier-ignore
    expect(worse(half, 'barwise', figure('beat F'))).toBeCloseTo(2 / 3, 1);
    expect(worse(half, 'barwise', figure('downbeat F'))).toBeNull();
  });

  it('put songs together as means, quantiles or shares within a limit', () => {
    expect(over(figure('beat F'), [1, 0.5, null])?.mean).toBe(0.75);
    expect(over(figure('tempo error, median (BPM)'), [1, 2, 9])?.mean).toBe(2);
    expect(over(figure('last beat within 10 ms, made to a clock'), [3, 10, 11, 40])?.mean).toBe(0.5);
    expect(over(figure('beat F'), [null])).toBeNull();
  });

  it('leave out songs whose truth does not bear them', () => {
    const of = (facts: Outcome['facts']) =>
      ({ whole: { ...outcome(0, beats), facts }, cut: outcome(3, beats) }) as Pair;
    const facts = { steady: true, verified: false, sections: 2 };
    expect(worse(of(facts), 'barwise', figure('beat error, median (ms), onsets verified'))).toBeNull();
    expect(worse(of({ ...facts, verified: true }), 'barwise', figure('beat error, median (ms), onsets verified'))).toBe(
      0,
    );
    expect(
      worse(of({ ...facts, steady: false }), 'barwise', figure('last beat within 10 ms, made to a clock')),
    ).toBeNull();
    expect(worse(of(facts), 'barwise', figure('sections F, 3 s'))).toBeNull();
    expect(factsOf(truth, { alignment: { lag_ms: 2, z: 6, first_half_ms: 2, second_half_ms: 1 } })).toEqual({
      steady: true,
      verified: true,
      sections: 0,
    });
    expect(factsOf(truth, { alignment: { lag_ms: 2, z: 6, first_half_ms: 57, second_half_ms: 1 } }).verified).toBe(
      false,
    );
    expect(factsOf(truth, {}).verified).toBe(false);
  });

  it('say which mark is reached', () => {
    const f = figure('beat F');
    expect([0.97, 0.93, 0.9].map((v) => verdict(v, f, 'dance'))).toEqual(['goal', 'floor', 'below']);
    const e = figure('tempo error, median (BPM)');
    expect([0.001, 0.004, 0.03].map((v) => verdict(v, e, 'other'))).toEqual(['goal', 'floor', 'below']);
    expect(verdict(0.5, figure('group starts F'), 'dance')).toBe('under the goal');
    expect(verdict(0.5, figure('CMLt'), 'dance')).toBeNull();
  });

  it('name the first cause of an error', () => {
    const said = (list: readonly number[]) => whatIsWrong(truth, estimateOfBeats(list));
    expect(said(beats)).toBe('');
    expect(said(beats.filter((_, i) => i % 2 === 0))).toBe('tempo × 0.50');
    expect(said(beats.map((t) => t + 0.25))).toMatch(/beats off by -?0\.50/);
    // just before and just after the middle between two beats
    expect(said(beats.map((t, i) => t + (i % 2 === 0 ? 0.24 : 0.26)))).toMatch(/beats off by -?0\.48/);
    const ones = truth.downbeats.map((t) => t + 0.5);
    expect(whatIsWrong(truth, { ...estimateOfBeats(beats), downbeats: ones })).toBe('ones off by 1 beats');
    const short = beats.filter((_, i) => i % 2 === 0);
    expect(whatIsWrong(truth, { ...estimateOfBeats(beats), downbeats: short })).toBe('bars of 2 beats, in truth of 4');
    expect(said([...beats, ...beats.slice(0, 8).map((t) => t + 30)])).toBe('8 beats after the last true one');
    expect(said(beats.slice(0, 40))).toBe('ends 20 beats early');
  });

  it('count a song that is refused as wrong in everything', () => {
    const said = refused(new BarwiseError('no-steady-beat', 'No beat.'));
    const scores = scoreTrack(truth, said.estimate);
    expect([scores.tempo1, scores.beatF, scores.amlt, scores.downbeatF]).toEqual([0, 0, 0, 0]);
    expect(said.refusal).toContain('no-steady-beat');
    expect(() => refused(new TypeError('a fault'))).toThrow(TypeError);
  });

  it('hold out every fitted number of the analysis, or say why not', () => {
    const numbers = Object.entries({ ...formWeights, ...learned }).filter(([, v]) => typeof v === 'object');
    const heldOut: readonly object[] = Object.values(FITTED);
    const forgotten = numbers.filter(([name, v]) => !heldOut.includes(v as object) && !(name in NOT_HELD_OUT));
    expect(forgotten.map(([name]) => name)).toEqual([]);
    expect(numbers.length).toBeGreaterThan(6);
  });

  it('run on other weights, and on the shipped ones again', () => {
    const shipped = PHASE_WEIGHTS.temperature;
    useWeights({ phase: { temperature: 17 } });
    expect(PHASE_WEIGHTS.temperature).toBe(17);
    useWeights(null);
    expect(PHASE_WEIGHTS.temperature).toBe(shipped);
  });
});

describe('folds', () => {
  /** One cue tells the right one of two candidates; a maker whose songs say the opposite must not be heard in its own fold. */
  const example = (maker: string, id: string, sign: number): Example => ({
    id, group: 'dance', maker, source: maker.split('-')[0], cut: 0, cues: [[sign], [-sign], [0]], right: [true, false, false], scores: [1, 0, 0.6], ratios: [1, 1, 2],
  }); // prettier-ignore
  const open = ['a-one', 'b-two', 'c-three', 'd-four', 'e-five', 'f-six', 'g-seven'].filter((m) => !isLocked(m));
  const songs = [
    ...open.slice(1).flatMap((m) => [example(m, `${m}-1`, 1), example(m, `${m}-2`, 1)]),
    ...Array.from({ length: 40 }, (_, i) => example(open[0], `${open[0]}-${i}`, -1)),
  ];

  it('leave out every song by the maker', () => {
    const weightsOf = gridFolds({ beat: songs, downbeat: songs }, { beat: [], downbeat: [] }, 'maker');
    const weight = (fold: string) => (weightsOf(fold).phase as { weights: number[] }).weights[0];
    expect(weight(open[0])).toBeGreaterThan(0);
    expect(weight(open[1])).toBeLessThan(0);
  });
});

describe('looks at the locked makers', () => {
  it('are logged one below the other', () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-looks-'));
    try {
      const file = pathToFileURL(join(folder, 'a.md'));
      writeFileSync(file, 'x\n<!-- looks:begin -->\n<!-- looks:end -->\ny\n');
      logLook(file, 'first');
      logLook(file, 'second');
      expect(readFileSync(file, 'utf8')).toMatch(/begin -->\n\n- \d{4}-\d\d-\d\d: first\n- [\d-]+: second\n\n<!--/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('the tables of held-out figures', () => {
  const facts = { steady: true, verified: true, sections: 0 };
  const half = beats.filter((_, i) => i % 2 === 0);
  const of = (ours: readonly number[], theirs: readonly number[]): Pair => {
    const scores = { barwise: scoreTrack(truth, estimateOfBeats(ours)), aubio: scoreTrack(truth, estimateOfBeats(theirs)) }; // prettier-ignore
    const both = { ...outcome(0, beats), scores, fromStart: scores, facts };
    return { whole: both, cut: { ...both, cut: 3, wrong: whatIsWrong(truth, estimateOfBeats(ours)) } };
  };

  it('have a row a figure and mark what is asked for', () => {
    const pairs = [of(beats, half)];
    const table = figureTable({ maker: pairs, source: pairs }, 'dance');
    expect(table).toMatch(/\| beat F +\| 0\.92 +\| 0\.96 +\| 1\.000 \(1\.000–1\.000\) n 1 +\| goal +\|/);
    expect(table).not.toContain('sections F');
    expect(behind({ maker: pairs, source: pairs }, 'dance')).toBe('ahead of both references on every figure');
  });

  it('say by which figures a reference is ahead, and which song fails why', () => {
    const pairs = [of(half, beats)];
    expect(behind({ maker: pairs, source: [] }, 'dance')).toMatch(
      /^not ahead on tempo accuracy 1 \(aubio 1\.000\), beat F/,
    );
    const failures = failureTable({ maker: pairs, source: [] }).split('\n');
    expect(failures).toHaveLength(3);
    expect(failures[2]).toMatch(/invented-song .*maker .*0\.00 \/ 0\.00.*tempo × 0\.50/);
    expect(songFigures(pairs).split('\n')).toHaveLength(3);
  });
});

describe('fits that are kept', () => {
  it('are made anew when a file they rest on or an input changes, and not otherwise', () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-kept-'));
    try {
      const at = (name: string) => join(folder, name);
      writeFileSync(at('fit.ts'), "import {\n  cue,\n} from './cue.js';\nimport type { T } from './types.js';\n");
      writeFileSync(at('cue.ts'), 'export const cue = 1;\n');
      writeFileSync(at('types.ts'), 'export type T = 1;\n');
      let made = 0;
      const fit = (input: number) => keptFit(at('folds'), 'x', [at('fit.ts')], input, () => ({ made: ++made }));
      expect([fit(1), fit(1), fit(2)]).toEqual([{ made: 1 }, { made: 1 }, { made: 2 }]);
      writeFileSync(at('types.ts'), 'export type T = 2;\n');
      expect(fit(1)).toEqual({ made: 1 });
      writeFileSync(at('cue.ts'), 'export const cue = 2;\n');
      expect(fit(1)).toEqual({ made: 3 });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('calibration on held-out answers', () => {
  /** Songs by six makers; `right` says which of ten answers at 0.95 are. */
  const pairs = (right: (i: number) => boolean): Pair[] =>
    ['a-a', 'b-b', 'c-c', 'd-d', 'e-e', 'f-f'].map((maker) => {
      const judged = Array.from({ length: 10 }, (_, i) => ({
        of: 'tempo' as const,
        confidence: 0.95,
        right: right(i),
      }));
      const whole = { ...outcome(0, beats), id: `${maker}-song`, judgements: judged };
      return { whole, cut: { ...whole, cut: 2, judgements: [] } };
    });

  it('takes too sure answers back, and leaves alone what a line does not help', () => {
    const line = fitCalibrations(pairs((i) => i < 7)).tempo;
    expect(calibrated(0.95, line)).toBeLessThan(0.85);
    expect(fitCalibrations(pairs((i) => i < 7)).downbeat).toEqual({ slope: 1, offset: 0 });
  });
});
