import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MEASURES } from '../../src/evaluation/index.js';
import { expected, fixturesFound, NUMBERS, rows, skipNote } from '../reference/mir-eval.js';
import { barwise, clubWav } from './support.js';

let root: string;
const at = (name: string) => join(root, name);
const write = (name: string, json: unknown) => {
  writeFileSync(at(name), JSON.stringify(json));
  return at(name);
};
beforeAll(() => (root = mkdtempSync(join(tmpdir(), 'barwise-evaluate-'))));
afterAll(() => rmSync(root, { recursive: true, force: true }));

interface Evaluation {
  tracks: { track: string; scores: Record<string, number | null>; wholeTrack: Record<string, number | null> }[];
  mean: { scores: Record<string, { mean: number; low: number; high: number; count: number } | null> };
  failures: { file: string; code: string; message: string }[];
}
const evaluate = async (...argv: string[]) => {
  const { code, out, err } = await barwise(['evaluate', ...argv, '--json']);
  return { code, err, data: JSON.parse(out) as Evaluation };
};

const observation = (time: number, duration: number, value: unknown) => ({ time, duration, value, confidence: null });
const jams = (...annotations: { namespace: string; data: unknown[] }[]) => ({
  file_metadata: {},
  annotations: annotations.map((a) => ({ annotation_metadata: {}, ...a })),
});
const beatsOf = (times: readonly number[]) => ({ namespace: 'beat', data: times.map((t) => observation(t, 0, null)) });

describe('barwise evaluate', () => {
  const beats = Array.from({ length: 128 }, (_, i) => i * 0.5);
  const truth = { bpm: 120, beats, downbeats: beats.filter((_, i) => i % 4 === 0) };

  it('analyses an audio file and scores it against a truth file', async () => {
    writeFileSync(at('club.wav'), clubWav());
    const { code, data } = await evaluate(
      at('club.wav'),
      write('club.truth.json', truth),
      '--cache-folder',
      at('cache'),
    );
    expect(code).toBe(0);
    expect(data.tracks[0]).toMatchObject({ track: 'club', scores: { tempo1: 1 } });
    expect(data.tracks[0].scores.beatF).toBeGreaterThan(0.98);
    expect(data.tracks[0].scores.beatMedianMs).toBeLessThan(3);
    expect(data.tracks[0].scores.key).toBeNull();
  });

  it('pairs the files of two folders by name, says what is alone, and goes on', async () => {
    mkdirSync(at('said/deep'), { recursive: true });
    mkdirSync(at('true'), { recursive: true });
    write('said/one.jams', jams(beatsOf(beats)));
    write('said/deep/two.json', jams(beatsOf(beats.map((t) => t + 0.25))));
    write('true/one.jams', jams(beatsOf(beats)));
    write('true/two.truth.json', truth);
    write('true/three.json', truth);
    writeFileSync(at('true/four.jams'), '{');
    write('said/four.jams', jams(beatsOf(beats)));
    const { code, err, data } = await evaluate(at('said'), at('true'));
    expect(code).toBe(4);
    expect(data.tracks.map((t) => [t.track, t.scores.beatF])).toEqual([['one', 1], ['two', 0]]); // prettier-ignore
    expect(data.mean.scores.beatF).toMatchObject({ mean: 0.5, low: 0, high: 1, count: 2 });
    expect(err.trim().split('\n')).toEqual([
      expect.stringMatching(/three\.json: .*said holds no audio file or analysis called three\.$/),
      expect.stringMatching(/four\.jams is not JSON: .*\.$/),
    ]);
    expect(data.failures.map((f) => f.code)).toEqual(['file-missing', 'damaged']);
  });

  it('takes what was printed of several tracks', async () => {
    const { out } = await barwise(['analyse', '--json', '--cache-folder', at('cache'), at('club.wav')]);
    write('all.json', { tracks: [JSON.parse(out)], failures: [] });
    const { code, data } = await evaluate(at('all.json'), at('club.truth.json'));
    expect(code).toBe(0);
    expect(data.tracks.map((t) => [t.track, t.scores.tempo1])).toEqual([['club', 1]]);
  });

  it('prints a table no wider than the terminal, and lines with tabs elsewhere', async () => {
    for (const paths of [
      [at('said'), at('true')],
      [at('said/one.jams'), at('true/one.jams')],
    ]) {
      const { out } = await barwise(['evaluate', ...paths], { columns: 90, env: { NO_COLOR: '1' } });
      expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(90);
      expect(out).toMatch(/beat F +\d/);
      expect(out).not.toMatch(/NaN|undefined|null/);
    }
    const { out } = await barwise(['evaluate', at('said'), at('true')]);
    const lines = out.slice(0, -1).split('\n').map((l) => l.split('\t')); // prettier-ignore
    expect(lines[0]).toEqual(['track', 'estimate', 'truth', ...MEASURES]);
    expect(lines.map((l) => l[0])).toEqual(['track', 'one', 'two', 'mean', 'low', 'high', 'count']);
    expect(lines.every((l) => l.length === lines[0].length)).toBe(true);
  });

  it.each([
    ['a file that is not there', () => [at('none.jams'), at('true/one.jams')], /none\.jams is not there/, 3],
    ['no JSON', () => [at('said/one.jams'), at('true/four.jams')], /four\.jams is not JSON/, 3],
    ['a truth without beats', () => [at('said/one.jams'), write('bad.json', { bpm: 3 })], /bad\.json.*beats/, 3],
    [
      'a tempo that is none',
      () => [at('said/one.jams'), write('bad.jams', jams({ namespace: 'tempo', data: [observation(0, 1, 'fast')] }))],
      /bad\.jams .*value 1 of tempo/,
      3,
    ],
    ['an analysis that is none', () => [write('x.json', { schemaVersion: 1 }), at('true/one.jams')], /x\.json/, 3],
    ['a folder without truth', () => (mkdirSync(at('bare')), [at('said'), at('bare')]), /bare holds no truth/, 3],
    ['one path only', () => [at('said')], /truths/i, 2],
  ] as const)('says in one sentence what is wrong with %s', async (_, argv, message, exit) => {
    const { code, out, err } = await barwise(['evaluate', ...argv()]);
    expect(code).toBe(exit);
    expect(err).toMatch(message);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(out).toBe('');
  });
});

describe.skipIf(!fixturesFound)(`barwise evaluate on mir_eval's fixtures, as JAMS${skipNote}`, () => {
  it('gives the beat scores that mir_eval expects', async () => {
    mkdirSync(at('beat-said'));
    mkdirSync(at('beat-true'));
    for (const n of NUMBERS) {
      const times = (name: string) => rows('beat', `${name}${n}.txt`).map((r) => Number(r[0]));
      write(`beat-said/${n}.jams`, jams(beatsOf(times('est'))));
      write(`beat-true/${n}.jams`, jams(beatsOf(times('ref'))));
    }
    const { code, data } = await evaluate(at('beat-said'), at('beat-true'));
    expect(code).toBe(0);
    for (const { track, scores } of data.tracks) {
      const theirs = expected('beat', track);
      expect(scores.beatF).toBeCloseTo(theirs['F-measure'], 6);
      expect(scores.cmlt).toBeCloseTo(theirs['Correct Metric Level Total'], 6);
      expect(scores.amlt).toBeCloseTo(theirs['Any Metric Level Total'], 6);
      expect(scores.pScore).toBeCloseTo(theirs['P-score'], 6);
    }
    expect(data.tracks).toHaveLength(NUMBERS.length);
  });

  it('gives the key scores that mir_eval expects', async () => {
    const modes: Record<string, string> = { maj: 'major', major: 'major', min: 'minor', minor: 'minor' };
    const key = (name: string) => {
      const [tonic, mode] = rows('key', name)[0];
      return jams({ namespace: 'key_mode', data: [observation(0, 1, `${tonic}:${modes[mode]}`)] });
    };
    let compared = 0;
    for (const n of NUMBERS) {
      const { data } = await evaluate(write('s.jams', key(`est${n}.txt`)), write('t.jams', key(`ref${n}.txt`)));
      const score = data.tracks[0].scores.key;
      if (score === null) continue; // a mode that is neither major nor minor
      // mir_eval credits the fifth above only, MIREX (since 2017) and we the fifth below as well.
      const theirs = expected('key', n)['Weighted Score'];
      if (score === 0.5 && theirs === 0) continue;
      expect(score).toBeCloseTo(theirs, 9);
      compared++;
    }
    expect(compared).toBeGreaterThan(5);
  });
});
