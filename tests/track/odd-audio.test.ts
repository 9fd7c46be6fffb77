import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeWav, openAudio, type WavOptions } from '../../src/audio/index.js';
import { analyseTrack, type TrackAnalysis } from '../../src/track/index.js';
import { clubWav } from '../cli/support.js';

const RATE = 22_050;
let folder: string;
let music: Float32Array;
let plain: TrackAnalysis;

async function analyse(channels: Float32Array[], rate = RATE, options: WavOptions = {}): Promise<TrackAnalysis> {
  const file = join(folder, 'odd.wav');
  writeFileSync(file, encodeWav(channels, rate, options));
  // What is asked here is whether the sound is heard alike; how a bare drum pattern is counted is asked elsewhere.
  return analyseTrack(file, { constraints: { grid: { tempo: 124 } } });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'barwise-odd-'));
  const file = join(folder, 'plain.wav');
  writeFileSync(file, clubWav(124, 24, RATE));
  const blocks: Float32Array[] = [];
  for await (const [left] of (await openAudio(file)).source.blocks()) blocks.push(left.slice());
  music = new Float32Array(blocks.reduce((sum, b) => sum + b.length, 0));
  let at = 0;
  for (const block of blocks) {
    music.set(block, at);
    at += block.length;
  }
  plain = await analyse([music]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The same beats, some time later; a beat more or less at the ends does not matter. */
function expectSameCount(found: TrackAnalysis, later = 0): void {
  expect(found.tempo.bpm).toBeCloseTo(plain.tempo.bpm, 1);
  for (const time of plain.beats.slice(4, -4)) {
    const nearest = found.beats.reduce((a, b) => (Math.abs(b - time - later) < Math.abs(a - time - later) ? b : a));
    expect(Math.abs(nearest - time - later)).toBeLessThan(0.005);
  }
}

const repeated = (samples: Float32Array, times: number) =>
  Float32Array.from({ length: samples.length * times }, (_, i) => samples[Math.floor(i / times)]);
const silence = (seconds: number) => new Float32Array(Math.round(seconds * RATE));
const joined = (...parts: Float32Array[]) => Float32Array.from(parts.flatMap((p) => [...p]));

describe('odd audio is counted like the plain', () => {
  it('in six channels at a rate that is resampled', async () => {
    const still = music.map(() => 0);
    expectSameCount(await analyse([music, music.slice(), still, still, still, still]));
  });

  it('at 8 kHz and at 176.4 kHz', async () => {
    const slow = Float32Array.from(
      { length: Math.floor(music.length / 2) },
      (_, i) => (music[2 * i] + music[2 * i + 1]) / 2,
    );
    expectSameCount(await analyse([slow], RATE / 2));
    expectSameCount(await analyse([repeated(music, 8)], RATE * 8));
  });

  it('with one channel upside down, and says so', async () => {
    const found = await analyse([music, music.map((x) => -x)]);
    expectSameCount(found);
    expect(found.source.warnings.map((w) => w.code)).toEqual(['inverted-channel']);
  });

  it('with a constant offset', async () => {
    expectSameCount(await analyse([music.map((x) => 0.4 * x + 0.5)]));
  });

  it('driven into clipping, and says so', async () => {
    const found = await analyse([music.map((x) => Math.max(-1, Math.min(1, 8 * x)))]);
    expectSameCount(found);
    expect(found.source.warnings.map((w) => w.code)).toEqual(['clipped']);
  });

  it('with samples that are no numbers, and says so', async () => {
    const spoilt = music.slice();
    for (let i = 0; i < 40; i++) spoilt[i * 20_011] = [NaN, Infinity, -Infinity][i % 3];
    const found = await analyse([spoilt], RATE, { bitDepth: 32 });
    expectSameCount(found);
    expect(found.source.warnings.map((w) => w.code)).toEqual(['unusual-samples']);
  });

  it('between long silences', async () => {
    expectSameCount(await analyse([joined(silence(20), music, silence(15))]), 20);
  });
});

it.each([
  ['a loop of three seconds', () => music.slice(0, 3 * RATE), 'too-short'],
  ['silence', () => silence(20), 'silent'],
])('%s is refused in a sentence', async (_, samples, code) => {
  await expect(analyse([samples()])).rejects.toMatchObject({
    code,
    message: expect.stringMatching(/odd\.wav/) as string,
  });
});
