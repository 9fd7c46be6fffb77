import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import stringWidth from 'string-width';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise, clubWav } from './support.js';

let folder: string;
let file: string;
const env = () => ({ BARWISE_CORRECTIONS: join(folder, 'corrections') });
const run = (argv: string[], columns?: number) =>
  barwise(argv, { env: env(), ...(columns === undefined ? {} : { columns }) });

/** Without the bold of heads. */
const plainText = (text: string) => text.replaceAll('\u001b[1m', '').replaceAll('\u001b[22m', '');

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-explain-'));
  file = join(folder, 'track\u001b[31m.wav');
  await writeFile(file, clubWav(120, 24));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('barwise explain', () => {
  it('tells a track in lines that fit the terminal, and no file name steers it', async () => {
    const { code, out } = await run(['explain', file], 80);
    expect(code).toBe(0);
    expect(out).toMatch(/What happens on each one/);
    expect(out).toMatch(/bar 1, 0:00\.\d, phrase 1, \d+ bars: /);
    // The heads are bold on a terminal; nothing else of the kind comes through.
    const plain = plainText(out);
    expect(plain).not.toContain('\u001b');
    for (const line of plain.split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(80);
  });

  it('prints the count table: one line a bar in a pipe, broken into lines on a terminal', async () => {
    const piped = (await run(['explain', file, '--counts'])).out.trimEnd().split('\n');
    expect(piped[0]).toBe('bar\ttime\tcount\tphrase\tsection\twhat happens');
    expect(piped[1]).toMatch(/^1\t0:0\d\.\d\t1 · 1\t1: 1 of \d+\t/);
    const wide = (await run(['explain', file, '--counts'], 60)).out;
    for (const line of plainText(wide).split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(60);
  });

  it('gives the same as data, and speaks German', async () => {
    const data = JSON.parse((await run(['explain', file, '--json', '--language', 'de'])).out) as {
      language: string;
      counts: unknown[];
      sections: { head: string }[];
    };
    expect(data.language).toBe('de');
    expect(data.sections[0].head).toMatch(/Takte 1–/);
    expect(data.counts.length).toBeGreaterThan(20);
    const { code, err } = await run(['explain', file, '--language', 'xx']);
    expect([code, err]).toEqual([2, '--language does not take "xx": give en (English) or de (Deutsch).\n']);
  });
});

describe('barwise correct', { timeout: 240_000 }, () => {
  it('says, shows, lists and takes back', async () => {
    const said = await run(['correct', file, '--tempo', '60'], 80);
    expect(said.code).toBe(0);
    expect(said.out).toMatch(/tempo +120 BPM +60 BPM/);
    expect(said.err).toMatch(/Kept in .*corrections.*\.yaml\n$/);
    expect((await run(['correct', file, '--list'])).out).toMatch(
      /^1 {2}the tempo is 60 BPM {2}\(\d{4}-\d\d-\d\d \d\d:\d\d\)\n$/,
    );
    expect((await run(['analyse', file])).out).toMatch(/\t60\.00\t/);
    expect((await run(['analyse', file, '--no-corrections'])).out).toMatch(/\t120\.00\t/);
    expect((await run(['explain', file])).out).toMatch(/As somebody has said\n {2}The tempo is 60 BPM\./);
    const refused = await run(['correct', file, '--tempo', '120']);
    expect(refused.code).toBe(3);
    expect(refused.err).toMatch(
      /^track.*: that the tempo is 120 BPM contradicts .* 60 BPM: take that back first \(--undo 1\)/,
    );
    const undone = await run(['correct', file, '--undo']);
    expect(undone.out).toMatch(/Nothing is said about the track any more/);
    expect((await run(['correct', file])).err).toMatch(/Nothing has been said/);
  });

  it.each([
    [['--first-one', 'soon'], '--first-one does not take "soon": give a time like 64.2 or 1:04.2.'],
    [['--section', '64.2=chorus'], '--section does not take "64.2=chorus": give a time and one of intro,'],
    [['--event', '64.2=bass'], '--event does not take "64.2=bass": give a time, one of kick,'],
    [['--tempo', '8700'], '--tempo does not take "8700": give beats a minute from 20 to 400.'],
    [['--undo', '--tempo', '60'], 'Corrections, --from, --undo and --list do not go together'],
  ])('refuses %j in one sentence', async (argv, sentence) => {
    const { code, err } = await run(['correct', file, ...argv]);
    expect(code).toBe(2);
    expect(err.startsWith(sentence)).toBe(true);
  });
});
