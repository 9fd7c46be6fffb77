import { truncateSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { fixture, readWhole, temporaryFolder } from './support/reading.js';
import { click, findClick } from './support/signals.js';

const folder = temporaryFolder();

/** A click at 1 s in every channel, each half as loud as the one before. */
const channelsOf = (rate: number, count: number) =>
  Array.from({ length: count }, (_, c) => click(rate, 1.2).map((x) => x / 2 ** c));

async function expectClick(file: string, rate: number, count: number): Promise<void> {
  const { info, channels } = await readWhole(file);
  expect(info).toMatchObject({ sampleRate: rate, channels: count });
  channels.forEach((samples, c) => {
    expect(Math.abs(findClick(samples, rate) - 1)).toBeLessThan(0.001);
    const peak = samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(peak).toBeGreaterThan((0.9 / 2 ** c) * 0.6);
    expect(peak).toBeLessThan((0.9 / 2 ** c) * 1.5);
  });
}

describe('every sample rate and number of channels', () => {
  for (const rate of [8000, 11025, 22050, 32000, 44100, 48000, 88200, 96000, 176400, 192000]) {
    it(`is read at ${rate} Hz, mono to six channels`, async () => {
      for (const count of [1, 2, 3, 4, 5, 6]) {
        const samples = channelsOf(rate, count);
        await expectClick(folder.file(`${rate}-${count}.wav`, encodeWav(samples, rate)), rate, count);
        if (count % 2 === 0)
          await expectClick(folder.file(`${rate}-${count}.aiff`, encodeAiff(samples, rate, 24)), rate, count);
      }
    });
  }

  for (const [rate, count] of [
    [8000, 1],
    [48000, 6],
    [96000, 2],
    [192000, 2],
  ] as const) {
    // prettier-ignore
    it(`is read as FLAC at ${rate} Hz with ${count} channels`, async () => {
      const bytes = await encodeFlac(channelsOf(rate, count), rate, 24);
      await expectClick(folder.file(`${rate}-${count}.flac`, bytes), rate, count);
    });
  }

  for (const [rate, count] of [
    [8000, 1],
    [11025, 2],
    [16000, 1],
    [22050, 2],
    [24000, 1],
    [32000, 2],
    [48000, 1],
  ] as const) {
    // prettier-ignore
    it(`is read as MP3 at ${rate} Hz with ${count} channels`, async () => {
      const bytes = await encodeMp3(channelsOf(rate, count), rate, 128);
      await expectClick(folder.file(`${rate}-${count}.mp3`, bytes), rate, count);
    });
  }

  for (const [rate, count] of [
    [8000, 1],
    [32000, 2],
    [48000, 1],
    [96000, 2],
  ] as const) {
    // prettier-ignore
    it(`is read as Ogg Vorbis at ${rate} Hz with ${count} channels`, async () => {
      const bytes = await encodeOgg(channelsOf(rate, count), rate);
      await expectClick(folder.file(`${rate}-${count}.ogg`, bytes), rate, count);
    });
  }
});

describe('six channels', () => {
  for (const name of ['six-in-turn.m4a', 'six-in-turn.ogg']) {
    for (const decoder of ['auto', 'wasm'] as const) {
      it(`come in the order of a WAV file from ${name}, decoder ${decoder}`, async () => {
        const { channels } = await readWhole(fixture(name), { decoder });
        const loudest = [0, 1, 2, 3, 4, 5].map((k) => {
          const from = Math.round((0.1 * (k + 1) + 0.02) * 44100);
          const energy = channels.map((samples) => samples.subarray(from, from + 2600).reduce((e, x) => e + x * x, 0));
          return energy.indexOf(Math.max(...energy));
        });
        expect(loudest).toEqual([0, 1, 2, 3, 4, 5]);
      });
    }
  }
});

describe('what lies beyond the limits', () => {
  it.each([
    [4000, 1, /has a sample rate of 4000 Hz, and only 8000 to 192000 Hz are read/],
    [384000, 1, /has a sample rate of 384000 Hz/],
    [44100, 7, /has 7 channels, and only 1 to 6 are read/],
  ])('is refused at %i Hz with %i channels', async (rate, count, message) => {
    const silence = Array.from({ length: count }, () => new Float32Array(100));
    const file = folder.file(`${rate}-${count}.wav`, encodeWav(silence, rate));
    await expect(openAudio(file)).rejects.toMatchObject({ code: 'unsupported-format' });
    await expect(openAudio(file)).rejects.toThrow(message);
  });

  it('is refused beyond three hours', async () => {
    const frames = 8000 * 3600 * 3 + 8000;
    const head = Buffer.from(encodeWav([new Float32Array(1)], 8000)).subarray(0, 44);
    head.writeUInt32LE(frames * 2, 40);
    const file = folder.file('long.wav', head);
    truncateSync(file, 44 + frames * 2); // a hole, so that it takes no room
    await expect(openAudio(file)).rejects.toMatchObject({ code: 'too-long' });
  });
});
