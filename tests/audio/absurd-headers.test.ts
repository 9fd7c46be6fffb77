import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { DECODERS, fixture, readWhole, temporaryFolder } from './support/reading.js';
import { noise } from './support/signals.js';

const RATE = 44_100;
const SECONDS = 2;
const folder = temporaryFolder();
const sound = [noise(SECONDS * RATE).map((x) => x * 0.05)];

type Lie = readonly [about: string, ending: string, file: () => Promise<Uint8Array> | Uint8Array];

/** Bytes written over those at a place counted from a word in the file. */
function patched(bytes: Uint8Array, word: string, offset: number, over: readonly number[]): Buffer {
  const out = Buffer.from(bytes);
  const at = out.indexOf(word, 0, 'latin1');
  expect(at).toBeGreaterThanOrEqual(0);
  over.forEach((byte, i) => (out[at + offset + i] = byte));
  return out;
}
const ALL = [0xff, 0xff, 0xff, 0xff];

/** Small files whose headers promise gigabytes. Places of fields: the standards of the formats. */
const LIES: readonly Lie[] = [
  // RIFF: the length of a chunk follows its name.
  ['a data chunk of four gigabytes', 'wav', () => patched(encodeWav(sound, RATE), 'data', 4, ALL)],
  ['a format chunk of four gigabytes', 'wav', () => patched(encodeWav(sound, RATE), 'fmt ', 4, ALL)],
  ['a sample rate of four thousand million', 'wav', () => patched(encodeWav(sound, RATE), 'fmt ', 12, ALL)],
  ['65,535 channels', 'wav', () => patched(encodeWav(sound, RATE), 'fmt ', 10, [0xff, 0xff])],
  // AIFF 1.3: COMM, its length, channels (2 bytes), sample frames (4).
  ['four thousand million frames', 'aiff', () => patched(encodeAiff(sound, RATE), 'COMM', 10, ALL)],
  ['a sound chunk of four gigabytes', 'aiff', () => patched(encodeAiff(sound, RATE), 'SSND', 4, ALL)],
  // RFC 9639, 8.2: 36 bits of total samples, from bit 108 of STREAMINFO, which follows four bytes of block header.
  [
    'a day and a half of samples in STREAMINFO',
    'flac',
    async () => {
      const bytes = Buffer.from(await encodeFlac(sound, RATE));
      bytes[4 + 4 + 13] |= 0x0f;
      return patched(bytes, 'fLaC', 4 + 4 + 14, ALL);
    },
  ],
  // RFC 9639, 8.1: a length of 24 bits in the block header.
  [
    'a block of tags of sixteen megabytes',
    'flac',
    async () => patched(await encodeFlac(sound, RATE), 'fLaC', 4 + 4 + 34 + 1, [0xff, 0xff, 0xff]),
  ],
  // The tag of variable-rate files: flags (4 bytes), then the number of frames.
  [
    'four thousand million frames in its tag',
    'mp3',
    () => patched(readFileSync(fixture('click-with-tag.mp3')), 'Info', 8, ALL),
  ],
  // ID3v2.4, 3.1: four bytes of length, seven bits of each.
  [
    'a tag of 256 megabytes',
    'mp3',
    async () => Buffer.concat([Buffer.from('ID3\x04\0\0\x7f\x7f\x7f\x7f', 'latin1'), await encodeMp3(sound, RATE)]),
  ],
  // RFC 3533, 6: the granule position stands six bytes after the start of a page.
  [
    'a last page that ends in the year 10,000',
    'ogg',
    async () => {
      const bytes = Buffer.from(await encodeOgg(sound, RATE));
      bytes.fill(0x7f, bytes.lastIndexOf('OggS') + 6, bytes.lastIndexOf('OggS') + 14);
      return bytes;
    },
  ],
  // Vorbis I, 5.2: the length of the vendor's name follows "\x03vorbis".
  ['a comment of four gigabytes', 'ogg', async () => patched(await encodeOgg(sound, RATE), '\u0003vorbis', 7, ALL)],
  // ISO/IEC 14496-12, 4.2: the length of a box stands before its name; 8.4.2: the duration.
  ['a box of four gigabytes', 'm4a', () => patched(readFileSync(fixture('click-index-last.m4a')), 'moov', -4, ALL)],
  ['a month of music', 'm4a', () => patched(readFileSync(fixture('click-index-last.m4a')), 'mdhd', 20, ALL)],
  // ISO/IEC 13818-7, 6.2: thirteen bits of length from bit 30 of a frame's header.
  [
    'a frame of eight kilobytes',
    'aac',
    () => {
      const bytes = Buffer.from(readFileSync(fixture('click.aac')));
      bytes[3] |= 0x03;
      bytes[4] = 0xff;
      bytes[5] |= 0xe0;
      return bytes;
    },
  ],
];

describe('a small file that promises', () => {
  it.each(LIES)(
    '%s (%s) is read as far as it goes or refused in a sentence, in little memory',
    async (about, ending, make) => {
      const file = folder.file(`${about.replaceAll(/\W+/g, '-')}.${ending}`, await make());
      const before = process.memoryUsage().rss;
      for (const decoder of DECODERS) {
        try {
          const { channels } = await readWhole(file, { decoder });
          expect(channels[0].length).toBeLessThan(3 * SECONDS * RATE);
        } catch (error) {
          expect(error).toBeInstanceOf(BarwiseError);
          expect((error as Error).message).toMatch(/^[^\n]+: [^\n]+\.$/);
        }
      }
      await openAudio(file).catch(() => undefined);
      expect(process.memoryUsage().rss - before).toBeLessThan(150e6);
    },
  );
});
