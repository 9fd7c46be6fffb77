import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { DECODERS, fixture, readWhole, temporaryFolder } from './support/reading.js';
import { click, findClick, noise } from './support/signals.js';

const RATE = 44100;
const folder = temporaryFolder();

/** Six seconds of quiet noise with clicks at 1 s and 5 s. */
const song = noise(6 * RATE).map((x) => x * 0.05);
for (const at of [1, 5]) click(RATE, 6, at).forEach((x, i) => (song[i] += x));

const FORMATS: Record<string, () => Uint8Array | Promise<Uint8Array>> = {
  wav: () => encodeWav([song], RATE),
  aiff: () => encodeAiff([song], RATE),
  flac: () => encodeFlac([song], RATE),
  mp3: () => encodeMp3([song], RATE),
  ogg: () => encodeOgg([song], RATE),
};

/** The bytes with a stretch in the middle overwritten. */
function scratched(bytes: Uint8Array, length: number): Uint8Array {
  const out = Uint8Array.from(bytes);
  const from = Math.floor(bytes.length / 2);
  for (let i = 0; i < length; i++) out[from + i] = (i * 7919 + 13) & 0xff;
  return out;
}

/** The bytes with a stretch in the middle missing. */
function holed(bytes: Uint8Array, length: number): Uint8Array {
  const from = Math.floor(bytes.length / 2);
  return Buffer.concat([bytes.subarray(0, from), bytes.subarray(from + length)]);
}

function expectClicksInPlace(samples: Float32Array): void {
  expect(Math.abs(findClick(samples, RATE, 1) - 1)).toBeLessThan(0.001);
  expect(Math.abs(findClick(samples, RATE, 5) - 5)).toBeLessThan(0.001);
}

describe('a file that ends early', () => {
  for (const [name, make] of Object.entries(FORMATS)) {
    it(`is read as far as it goes, with a warning, as ${name}`, async () => {
      const whole = await make();
      const file = folder.file(`half.${name}`, whole.subarray(0, Math.floor(whole.length / 2)));
      const { info, channels, warnings } = await readWhole(file);
      expect(warnings.map((w) => w.code)).toContain('truncated');
      expect(warnings[0].message).toMatch(/^The file ends early: .*\d+\.\d\d s are there/);
      expect(info.durationSeconds).toBeGreaterThan(2);
      expect(info.durationSeconds).toBeLessThan(4);
      expect(channels[0].length).toBe(Math.round(info.durationSeconds * RATE));
      expect(Math.abs(findClick(channels[0], RATE, 1) - 1)).toBeLessThan(0.001);
    });
  }

  it('is told by the frame count in the tag of an MP3, also when it ends on a whole frame', async () => {
    const whole = readFileSync(fixture('click-with-tag.mp3'));
    const frame = Math.floor((144000 * 64) / 44100);
    const file = folder.file('tag.mp3', whole.subarray(0, frame * 50));
    const { warnings } = await openAudio(file);
    expect(warnings().map((w) => w.message)).toEqual([
      expect.stringMatching(/its headers promise 1\.50 s, but only 1\.\d\d s are there/),
    ]);
  });

  it('is read as far as it goes as M4A when the index stands first', async () => {
    const whole = readFileSync(fixture('click-index-first.m4a'));
    const { info, warnings } = await openAudio(folder.file('half-first.m4a', whole.subarray(0, whole.length - 200)));
    expect(warnings().map((w) => w.code)).toEqual(['truncated']);
    expect(info.durationSeconds).toBeLessThan(1.45);
  });

  it('is refused in a sentence when an Ogg file ends within the table of its first page', async () => {
    const whole = readFileSync(fixture('opus.ogg'));
    // Found by damaging files at random: the table promises more segments than there are bytes.
    const cut = Uint8Array.from(whole.subarray(0, 40));
    cut[26] = 200;
    await expect(openAudio(folder.file('cut-table.ogg', cut))).rejects.toMatchObject({ name: 'BarwiseError' });
  });

  it('is refused as M4A when the index was to come last', async () => {
    const whole = readFileSync(fixture('click-index-last.m4a'));
    const file = folder.file('half-last.m4a', whole.subarray(0, 700));
    await expect(openAudio(file)).rejects.toMatchObject({
      code: 'damaged',
      message: `${file} is an MP4 file that ends early, before its index: copy the file again.`,
    });
  });

  it('draws no warning when nothing is missing', async () => {
    for (const [name, make] of Object.entries(FORMATS)) {
      const { warnings } = await readWhole(folder.file(`whole.${name}`, await make()));
      expect(warnings).toEqual([]);
    }
    for (const name of ['click-with-tag.mp3', 'click-index-first.m4a', 'click-index-last.m4a', 'click.aac']) {
      expect((await readWhole(fixture(name))).warnings).toEqual([]);
    }
  });
});

describe('a file that is damaged in the middle', () => {
  for (const name of ['flac', 'mp3', 'ogg']) {
    for (const decoder of DECODERS) {
      it(`keeps everything else in its place as ${name}, by the ${decoder} decoder`, async () => {
        const file = folder.file(`scratched-${decoder}.${name}`, scratched(await FORMATS[name](), 1500));
        const { channels, warnings } = await readWhole(file, { decoder });
        expectClicksInPlace(channels[0]);
        expect(channels[0].length / RATE).toBeCloseTo(6, 1);
        expect(warnings.map((w) => w.code)).toEqual(['damaged-frames']);
        expect(warnings[0].message).toMatch(/^One place is damaged, at [23]\.\d\d s: [01]\.\d\d s of silence stand in/);
      });
    }
  }

  for (const name of ['flac', 'ogg']) {
    it(`keeps everything else in its place as ${name} when a stretch is missing`, async () => {
      const { channels, warnings } = await readWhole(folder.file(`holed.${name}`, holed(await FORMATS[name](), 9000)));
      expectClicksInPlace(channels[0]);
      expect(warnings.map((w) => w.code)).toEqual(['damaged-frames']);
    });
  }

  it('keeps everything else in its place as MP3 when a stretch is missing and the tag counts the frames', async () => {
    const bytes = readFileSync(fixture('click-with-tag.mp3'));
    const file = folder.file('holed.mp3', Buffer.concat([bytes.subarray(0, 3000), bytes.subarray(5000)]));
    const { channels, warnings } = await readWhole(file);
    expect(Math.abs(findClick(channels[0], RATE, 1) - 1)).toBeLessThan(0.001);
    expect(channels[0].length / RATE).toBeCloseTo(1.5, 3);
    expect(warnings.map((w) => w.code)).toEqual(['damaged-frames']);
  });

  it('keeps everything else in its place as AAC', async () => {
    const bytes = Uint8Array.from(readFileSync(fixture('click.aac')));
    for (let i = 300; i < 330; i++) bytes[i] = (i * 7919) & 0xff;
    const { channels } = await readWhole(folder.file('scratched.aac', bytes));
    expect(Math.abs(findClick(channels[0], RATE, 1) - 1)).toBeLessThan(0.001);
  });
});

describe('samples that are no numbers', () => {
  it('become 0, with a warning that counts them', async () => {
    const samples = Float32Array.from(song);
    const bytes = encodeWav([samples], RATE, { bitDepth: 32 });
    const view = new DataView(bytes.buffer);
    const data = bytes.length - samples.length * 4;
    [NaN, Infinity, -Infinity].forEach((x, i) => view.setFloat32(data + (1000 + i) * 4, x, true));
    const { channels, warnings } = await readWhole(folder.file('nan.wav', bytes));
    expect([...channels[0].subarray(1000, 1003)]).toEqual([0, 0, 0]);
    expect(channels[0].every((x) => Number.isFinite(x))).toBe(true);
    expect(warnings).toEqual([
      {
        code: 'unusual-samples',
        message: '3 samples are not a finite number and were set to 0: export the file again.',
      },
    ]);
  });
});

describe('an M4A file made to do harm', () => {
  const whole = readFileSync(fixture('click-index-last.m4a'));
  /** The file with 32-bit numbers written at places counted from the end of the name of a box. */
  const patched = (box: string, numbers: Record<number, number>) => {
    const bytes = Buffer.from(whole);
    const at = bytes.indexOf(box, 0, 'latin1') + 4;
    expect(at).toBeGreaterThan(4);
    for (const [offset, number] of Object.entries(numbers)) bytes.writeUInt32BE(number, at + Number(offset));
    return bytes;
  };

  it.each([
    // Found by damaging files at random: an array for so many units ended the whole process.
    ['promises four thousand million units of one size', patched('stsz', { 4: 1, 8: 0xffffffff })],
    ['has units that overlap and are each as long as the file', patched('stsz', { 4: whole.length - 200, 8: 60 })],
    ['has a run that starts beyond the last chunk', patched('stsc', { 8: 9 })],
  ])('that %s is refused at once', async (_, bytes) => {
    const start = process.memoryUsage().rss;
    await expect(openAudio(folder.file('harm.m4a', bytes))).rejects.toMatchObject({ code: 'damaged' });
    expect(process.memoryUsage().rss - start).toBeLessThan(100e6);
  });
});
