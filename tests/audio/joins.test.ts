import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeFlac, encodeMp3 } from './support/encode.js';
import { fixture, readWhole, temporaryFolder } from './support/reading.js';
import { click, findClick } from './support/signals.js';

const RATE = 44100;
const folder = temporaryFolder();

/** An ID3v2 tag with nothing but room in it. */
function id3(room: number): Buffer {
  const tag = Buffer.alloc(10 + room);
  tag.write('ID3\x04', 'latin1');
  [21, 14, 7, 0].forEach((shift, i) => (tag[6 + i] = (room >> shift) & 0x7f));
  return tag;
}

describe('MP3 files of an unusual make', () => {
  it('two that were joined are read to the end, with a tag between them', async () => {
    const tagged = readFileSync(fixture('click-with-tag.mp3'));
    const { channels, warnings } = await readWhole(
      folder.file('joined.mp3', Buffer.concat([tagged, id3(500), tagged])),
    );
    expect(Math.abs(findClick(channels[0], RATE) - 1)).toBeLessThan(0.001);
    // the second begins after the 59 frames that the tag of the first counts, and is late by the same delay
    const second = (59 * 1152) / RATE + 1;
    expect(channels[0].length / RATE).toBeGreaterThan(3);
    expect(Math.abs(findClick(channels[0], RATE, second) - second)).toBeLessThan(0.001);
    expect(warnings).toEqual([]);
  });

  it('a tag that counts the frames but knows no delay leaves the usual one', async () => {
    const bytes = Buffer.from(readFileSync(fixture('click-with-tag.mp3')));
    const encoder = bytes.indexOf('Lavf');
    bytes.fill(0, encoder + 21, encoder + 24);
    const { channels } = await readWhole(folder.file('no-delay.mp3', bytes));
    expect(Math.abs(findClick(channels[0], RATE) - 1)).toBeLessThan(0.001);
  });

  it('the delay in the tag is what is trimmed', async () => {
    const bytes = Buffer.from(readFileSync(fixture('click-with-tag.mp3')));
    const at = bytes.indexOf('Lavf') + 21;
    const delay = (bytes[at] << 4) | (bytes[at + 1] >> 4);
    bytes[at] = (delay + 441) >> 4;
    bytes[at + 1] = (((delay + 441) & 15) << 4) | (bytes[at + 1] & 15);
    const { channels } = await readWhole(folder.file('more-delay.mp3', bytes));
    expect(findClick(channels[0], RATE, 0.99)).toBeCloseTo(0.99, 4);
  });

  it('junk before the first frame and zeros after the last are no damage', async () => {
    const plain = await encodeMp3([click(RATE, 1.5)], RATE);
    const bytes = Buffer.concat([id3(300), Buffer.alloc(700, 0x55), plain, Buffer.alloc(5000)]);
    const { channels, warnings } = await readWhole(folder.file('wrapped.mp3', bytes));
    expect(Math.abs(findClick(channels[0], RATE) - 1)).toBeLessThan(0.001);
    expect(warnings).toEqual([]);
  });
});

describe('a foreign tag at the head', () => {
  it('is skipped before FLAC and WAV', async () => {
    const samples = [click(RATE, 1.5)];
    for (const [name, bytes] of [
      ['id3.flac', await encodeFlac(samples, RATE)],
      ['id3.wav', encodeWav(samples, RATE)],
    ] as const) {
      const plain = (await openAudio(folder.file(`plain-${name}`, bytes))).info;
      const { info, channels } = await readWhole(folder.file(name, Buffer.concat([id3(1000), bytes])));
      expect(findClick(channels[0], RATE)).toBe(1);
      expect(info.audioDigest).toBe(plain.audioDigest);
    }
  });
});

describe('AAC of a kind that is not read', () => {
  it('is refused by its name', async () => {
    const bytes = Buffer.from(readFileSync(fixture('click-index-last.m4a')));
    // the announcement of spectral band replication (0x2b7, type 5), switched from absent to present
    const at = bytes.indexOf(Buffer.from('56e500', 'hex'));
    expect(at).toBeGreaterThan(0);
    bytes[at + 2] = 0x80;
    const file = folder.file('he.m4a', bytes);
    await expect(openAudio(file)).rejects.toMatchObject({
      code: 'unsupported-format',
      message: `${file} is HE-AAC, and only AAC-LC is read: convert it to FLAC or AAC-LC.`,
    });
  });

  it('is refused when it is another codec', async () => {
    const bytes = Buffer.from(readFileSync(fixture('click-index-last.m4a')));
    bytes.write('alac', bytes.indexOf('mp4a'), 'latin1');
    const file = folder.file('lossless.m4a', bytes);
    await expect(openAudio(file)).rejects.toThrow('ALAC, and only AAC-LC is read');
  });
});
