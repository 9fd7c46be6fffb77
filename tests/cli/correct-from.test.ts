import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { toJams, toMidi } from '../../src/exchange/index.js';
import { parseTrackAnalysis, type SaidCorrection, type TrackAnalysis } from '../../src/track/index.js';
import { barwise, clubWav } from './support.js';

let root: string;
let track: string;
let folder: string;
const at = (name: string) => join(root, name);
const correct = (...argv: string[]) => barwise(['correct', track, '--corrections-folder', folder, ...argv]);
const analysed = async (): Promise<TrackAnalysis> => {
  const { out } = await barwise(['analyse', track, '--corrections-folder', folder, '--no-cache', '--json']);
  return parseTrackAnalysis(JSON.parse(out));
};
let machine: TrackAnalysis;

/** JAMS as somebody else might write it: beats from 0.5 s on, whose third is a one; two sections; one label of ours. */
const row = (time: number, value: unknown, duration = 0) => ({ time, duration, value, confidence: null });
const annotation = (namespace: string, data: unknown) => ({ namespace, data, annotation_metadata: {}, sandbox: {} });
const foreign = (...annotations: unknown[]) => JSON.stringify({ file_metadata: { duration: 64, jams_version: '0.3.4' }, annotations, sandbox: {} }); // prettier-ignore
const shiftedOnes = foreign(
  annotation(
    'beat',
    Array.from({ length: 120 }, (_, i) => row(0.5 + i * 0.5, ((i + 2) % 4) + 1)),
  ),
  annotation('segment_open', [row(1.5, 'verse', 16), row(17.5, 'Breakdown', 16)]),
);

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'barwise-from-'));
  track = at('club.wav');
  folder = at('none');
  writeFileSync(track, clubWav());
  writeFileSync(at('other.jams'), shiftedOnes);
  machine = await analysed();
});
beforeEach(() => {
  folder = mkdtempSync(join(root, 'said-'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('barwise correct --from', () => {
  it('takes over what JAMS states, tells what it does not, and counts so from then on', async () => {
    const { code, out, err } = await correct('--from', at('other.jams'));
    expect([code, err]).toEqual([0, expect.stringMatching(/^Kept in .*\.yaml\n$/)]);
    expect(out).toMatch(/a bar has 4 beats .*from other\.jams/);
    expect(out).toMatch(/a bar starts at 0:29\.50/);
    expect(out).toMatch(/other\.jams does not state where bar 1 starts or phrases\./);
    expect(out.replace(/\s+/g, ' ')).toContain('Only the places are taken of sections that are called "verse"');
    expect(out.replace(/\s+/g, ' ')).toMatch(/Counted now as other\.jams has it: 120 of 120 beats and 30 of 30 bar ones within 70 ms; 2 of 2 section starts/); // prettier-ignore
    const now = await analysed();
    expect(machine.bars.some((b) => Math.abs(b.start - 1.5) < 0.05)).toBe(false);
    expect(now.bars.some((b) => Math.abs(b.start - 1.5) < 0.05)).toBe(true);
    expect(now.sections.find((s) => Math.abs(s.start - 17.5) < 0.1)?.function).toBe('breakdown');
  });

  it('is taken back as it came, all at once, and leaves a word of a person alone', async () => {
    await correct('--beats-per-bar', '4');
    await correct('--from', at('other.jams'));
    const list = async () => (JSON.parse((await correct('--list', '--json')).out) as { corrections: SaidCorrection[] }).corrections; // prettier-ignore
    expect((await list()).length).toBeGreaterThan(4);
    const { out } = await correct('--undo');
    expect(out).toMatch(/^Taken back: \d+ corrections from other\.jams\.\n/);
    expect((await list()).map((c) => [c.kind, c.from])).toEqual([['metre', null]]);
    await correct('--undo');
    expect({ ...(await analysed()), analysis: 0 }).toEqual({ ...machine, analysis: 0 });
  });

  it('never overrules what a person has said', async () => {
    await correct('--beats-per-bar', '3');
    const { code, out } = await correct('--from', at('other.jams'), '--take', 'tempo,metre');
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'Not taken, because it was said before that a bar has 3 beats: a bar has 4 beats.',
    );
    expect((await analysed()).metre.beatsPerBar).toBe(3);
  });

  it('leaves out what the track cannot be', async () => {
    writeFileSync(at('fast.jams'), foreign(annotation('tempo', [row(0, 37, 64)]), annotation('segment_open', [row(0, 'intro', 16), row(16, 'main', 48)]))); // prettier-ignore
    const { code, out } = await correct('--from', at('fast.jams'), '--dry-run');
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('cannot be counted so: the tempo is 37 BPM');
    expect(out).toMatch(/a section \(main part\) starts at 0:16\.00/);
  });

  it('writes nothing on a dry run, and all of it as data with --json', async () => {
    const { out } = await correct('--from', at('other.jams'), '--dry-run', '--json');
    const data = JSON.parse(out) as { taken: unknown[]; refused: unknown[]; agreement: { beats: { of: number } }; sentences: string[] }; // prettier-ignore
    expect([data.taken.length > 3, data.refused, data.agreement.beats.of]).toEqual([true, [], 120]);
    expect(data.sentences.every((s) => s.endsWith('.'))).toBe(true);
    expect((await correct('--list')).err).toMatch(/Nothing has been said/);
  });

  it('finds nothing to change in what it wrote itself, JAMS or MIDI', async () => {
    writeFileSync(at('own.jams'), JSON.stringify(toJams(machine)));
    writeFileSync(at('own.mid'), toMidi(machine));
    const all = `${machine.beats.length} of ${machine.beats.length} beats`;
    for (const file of ['own.jams', 'own.mid']) {
      const { out } = await correct('--from', at(file), '--dry-run', '--json');
      const { changes, sentences, after } = JSON.parse(out) as { changes: unknown[]; sentences: string[]; after: unknown }; // prettier-ignore
      expect([file, changes, after]).toEqual([file, [], undefined]);
      expect(sentences.at(-1)).toContain(all);
    }
  });

  it('moves a file that begins elsewhere', async () => {
    const { out } = await correct('--from', at('other.jams'), '--offset', '-0.5', '--take', 'bars', '--dry-run');
    expect(out).toMatch(/a bar starts at 0:29\.00/);
  });

  it.each([
    ['a file that is not there', ['--from', 'no-such.jams'], /no-such\.jams is not there/, 3],
    ['a file that is neither', ['--from', 'LICENSE'], /neither JAMS nor a Standard MIDI File/, 3],
    ['something that cannot be taken', ['--from', 'x', '--take', 'mood'], /--take does not take "mood"/, 2],
    ['an offset in words', ['--from', 'x', '--offset', 'late'], /--offset does not take "late"/, 2],
    ['an offset without a file', ['--offset', '1'], /go with --from only/, 2],
    ['two things at once', ['--from', 'x', '--undo'], /do not go together/, 2],
  ] as const)('says one sentence about %s', async (_, argv, pattern, exit) => {
    const { code, out, err } = await correct(...argv);
    expect([code, out, err.trim().split('\n').length]).toEqual([exit, '', 1]);
    expect(err).toMatch(pattern);
  });

  it('says so when a file states nothing of use', async () => {
    writeFileSync(at('empty.jams'), foreign());
    const { code, err } = await correct('--from', at('empty.jams'));
    expect([code, err]).toEqual([3, expect.stringMatching(/empty\.jams says nothing that could be taken over \(empty\.jams does not state .*\): give a file with beats, a tempo or sections\.\n$/)]); // prettier-ignore
    mkdirSync(folder, { recursive: true });
    expect(() => readFileSync(join(folder, 'x.yaml'))).toThrow();
  });
});
