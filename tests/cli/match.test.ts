import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import stringWidth from 'string-width';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise, clubWav } from './support.js';

let folder: string;
let a: string;
let b: string;
const run = (argv: string[], columns?: number) =>
  barwise(argv, {
    env: { BARWISE_CORRECTIONS: join(folder, 'corrections') },
    ...(columns === undefined ? {} : { columns }),
  });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-match-'));
  [a, b] = [join(folder, 'one.wav'), join(folder, 'two.wav')];
  await writeFile(a, clubWav(124, 32));
  await writeFile(b, clubWav(126, 32));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('barwise match', () => {
  it('says on which bar to start B, in lines that fit, and in German', async () => {
    const { code, out } = await run(['match', a, b], 80);
    expect(code).toBe(0);
    expect(out).toMatch(/Start B|no overlap/);
    for (const line of out.split('\n')) {
      expect(stringWidth(line.replaceAll('\u001b[1m', '').replaceAll('\u001b[22m', ''))).toBeLessThanOrEqual(80);
    }
    expect((await run(['match', a, b, '--language', 'de'])).out).toMatch(/starten/);
  });

  it('gives everything as data, each remark with its sentence', async () => {
    const data = JSON.parse((await run(['match', a, b, '--json'])).out) as {
      tempo: { rateB: number };
      plans: { cautions: { kind: string; says: string }[] }[];
    };
    expect(data.tempo.rateB).toBeCloseTo(124 / 126, 2);
    for (const { kind, says } of data.plans[0].cautions) expect(`${kind} ${says}`).toMatch(/ .+\.$/);
  });

  it('prints the sheet', async () => {
    const sheet = join(folder, 'sheet.pdf');
    const { code } = await run(['match', a, b, '--out', sheet]);
    expect(code).toBe(0);
    expect((await readFile(sheet)).toString('latin1', 0, 5)).toBe('%PDF-');
  });

  it.each([
    [['--fader', 'wide']],
    [['--change', 'c']],
    [['--longest', '1']],
    [['--plans', '0']],
    [['--language', 'tlh']],
    [['--out', 'sheet.txt']],
  ])('refuses %j with one sentence', async (options) => {
    const { code, err } = await run(['match', a, b, ...options]);
    expect(code).toBe(2);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});

describe('barwise order', () => {
  it('orders a folder and obeys wishes', async () => {
    const { code, out } = await run(['order', folder, '--start', 'two']);
    expect(code).toBe(0);
    const [head, first, second] = out.split('\n').map((line) => line.split('\t')[1]);
    expect([head, first, second]).toEqual(['Track', 'two.wav', 'one.wav']);
  });

  it('refuses a name that no track has, and wishes that contradict each other', async () => {
    expect((await run(['order', folder, '--start', 'three'])).code).toBe(2);
    const circle = ['--before', 'one.wav < two.wav', '--before', 'two.wav < one.wav'];
    const { code, err } = await run(['order', folder, ...circle]);
    expect(code).not.toBe(0);
    expect(err).toMatch(/contradict/);
  });
});

describe('barwise practice', () => {
  it('writes a count-along with the caution, and overwrites nothing unasked', async () => {
    const out = join(folder, 'count.wav');
    const first = await run(['practice', 'count', a, '--bars', '1-4', '--out', out]);
    expect(first.code).toBe(0);
    expect(first.err).toMatch(/Mind your hearing/);
    expect((await readFile(out)).includes('Mind your hearing')).toBe(true);
    expect((await run(['practice', 'count', a, '--out', out])).code).toBe(2);
  });

  it('writes the answers of a drill beside its sound', async () => {
    expect((await run(['practice', 'drill', 'ahead', '--out', join(folder, 'ahead.wav')])).code).toBe(0);
    expect(await readdir(folder)).toContain('ahead-answers.txt');
  });

  it.each([
    [['drill', 'ahead', '--out', 'x.ogg']],
    [['drill', 'nothing', '--out', 'x.wav']],
    [['drill', 'the-one', '--out', 'x.wav']],
    [['drill', 'ahead', '--loudness', '-3', '--out', 'x.wav']],
  ])('refuses %j with one sentence', async (argv) => {
    const { code, err } = await run(['practice', ...argv]);
    expect(code).toBe(2);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
