import { readFileSync } from 'node:fs';
import { File as TagFile } from 'node-taglib-sharp';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { fixture, temporaryFolder } from './support/reading.js';
import { noise } from './support/signals.js';

const RATE = 44_100;
const folder = temporaryFolder();
const sound = [noise(RATE).map((x) => x * 0.05)];
const FORMATS: Record<string, () => Uint8Array | Promise<Uint8Array>> = {
  wav: () => encodeWav(sound, RATE),
  flac: () => encodeFlac(sound, RATE),
  mp3: () => encodeMp3(sound, RATE),
  ogg: () => encodeOgg(sound, RATE),
  m4a: () => readFileSync(fixture('click-index-last.m4a')),
};

async function tagged(format: string, title: string): Promise<string | null> {
  const file = folder.file(`tagged.${format}`, await FORMATS[format]());
  const tags = TagFile.createFromPath(file);
  tags.tag.title = title;
  tags.save();
  tags.dispose();
  return (await openAudio(file)).info.tags.title;
}

describe.each(Object.keys(FORMATS))('a tag of a file in %s', (format) => {
  it('is read as it stands, markup and all', async () => {
    expect(await tagged(format, ' <b onclick="x">Slack & Water</b> ')).toBe('<b onclick="x">Slack & Water</b>');
  });

  it('of a million characters is cut to two thousand', async () => {
    const title = await tagged(format, 'Ebb😀'.repeat(200_000));
    expect([...title!]).toHaveLength(2000);
    expect(title!.endsWith('😀Ebb😀Ebb…')).toBe(true);
  });

  it('never holds half a character', async () => {
    expect(await tagged(format, 'Sl\ud83dack \udc00Water')).not.toMatch(/\p{Surrogate}/u);
  });
});
