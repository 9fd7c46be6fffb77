import { copyFileSync, readFileSync } from 'node:fs';
import { ByteVector, File as TagFile, Picture, PictureType } from 'node-taglib-sharp';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { fixture, temporaryFolder } from './support/reading.js';
import { click, noise } from './support/signals.js';

const folder = temporaryFolder();
const samples = [noise(44100 * 2)];

const FORMATS: Record<string, () => Uint8Array | Promise<Uint8Array>> = {
  wav: () => encodeWav(samples, 44100),
  aiff: () => encodeAiff(samples, 44100),
  flac: () => encodeFlac(samples, 44100),
  mp3: () => encodeMp3(samples, 44100),
  ogg: () => encodeOgg(samples, 44100),
  m4a: () => readFileSync(fixture('click-index-last.m4a')),
};

/** Writes tags and a picture, large enough to move the audio and to need more pages. */
function retag(file: string, title: string): void {
  const tags = TagFile.createFromPath(file);
  tags.tag.title = title;
  tags.tag.performers = ['The Invented'];
  tags.tag.album = 'Made Up';
  tags.tag.year = 2019;
  tags.tag.genres = ['House'];
  tags.tag.comment = 'for the lesson';
  const image = ByteVector.fromByteArray(Uint8Array.from({ length: 150_000 }, (_, i) => i & 0xff));
  tags.tag.pictures = [Picture.fromFullData(image, PictureType.FrontCover, 'image/png', 'cover')];
  tags.save();
  tags.dispose();
}

describe('the audio digest', () => {
  for (const [name, make] of Object.entries(FORMATS)) {
    it(`survives editing the tags and renaming, as ${name}`, async () => {
      const file = folder.file(`plain.${name}`, await make());
      const before = (await openAudio(file)).info;
      const copy = folder.file(`copy of it.${name}`);
      copyFileSync(file, copy);
      retag(copy, 'First');
      const tagged = (await openAudio(copy)).info;
      retag(copy, 'Second');
      const again = (await openAudio(copy)).info;
      expect(before.audioDigest).toMatch(/^[0-9a-f]{64}$/);
      expect(readFileSync(copy).length).toBeGreaterThan(readFileSync(file).length + 100_000);
      expect(tagged.audioDigest).toBe(before.audioDigest);
      expect(again.audioDigest).toBe(before.audioDigest);
      expect(tagged.durationSeconds).toBe(before.durationSeconds);
      expect(before.tags.title).toBeNull();
      expect(tagged.tags).toEqual({
        title: 'First',
        artist: 'The Invented',
        album: 'Made Up',
        year: 2019,
        genre: 'House',
        comment: 'for the lesson',
      });
      expect(again.tags.title).toBe('Second');
    });
  }

  it('changes with a single sample', async () => {
    const other = [Float32Array.from(samples[0])];
    other[0][40000] += 0.1;
    const a = (await openAudio(folder.file('a.wav', encodeWav(samples, 44100)))).info;
    const b = (await openAudio(folder.file('b.wav', encodeWav(other, 44100)))).info;
    expect(b.audioDigest).not.toBe(a.audioDigest);
  });

  it('changes with the sample rate that the samples are given', async () => {
    const a = (await openAudio(folder.file('rate-a.wav', encodeWav([click(44100, 1.1)], 44100)))).info;
    const b = (await openAudio(folder.file('rate-b.wav', encodeWav([click(44100, 1.1)], 48000)))).info;
    expect(b.audioDigest).not.toBe(a.audioDigest);
  });

  it('is the same for an M4A with its index first and last', async () => {
    const first = (await openAudio(fixture('click-index-first.m4a'))).info;
    const last = (await openAudio(fixture('click-index-last.m4a'))).info;
    expect(first.audioDigest).toBe(last.audioDigest);
  });

  it('does not count an MP3 tag at the end of any kind', async () => {
    const bytes = await encodeMp3(samples, 44100);
    const id3 = Buffer.alloc(128);
    id3.write('TAGSome title', 'latin1');
    const ape = Buffer.alloc(64);
    for (const at of [0, 32]) {
      ape.write('APETAGEX', at, 'latin1');
      ape.writeUInt32LE(2000, at + 8);
      ape.writeUInt32LE(32, at + 12);
      ape.writeUInt32LE(at === 0 ? 0xa0000000 : 0x80000000, at + 20);
    }
    const plain = (await openAudio(folder.file('end-a.mp3', bytes))).info;
    const tagged = await openAudio(folder.file('end-b.mp3', Buffer.concat([bytes, ape, id3])));
    expect(tagged.info.audioDigest).toBe(plain.audioDigest);
    expect(tagged.warnings()).toEqual([]);
  });
});
