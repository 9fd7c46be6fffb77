import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { File } from 'node-taglib-sharp';
import { encodeAudio } from '../../../src/arranger/files/encode.js';
import { randomArrangement, renderArrangement } from '../../../src/arranger/index.js';
import { NAMES, TEXTS } from './hostile.js';
import { longerM4a } from './longer-m4a.js';

const FORMATS = ['wav', 'mp3', 'm4a', 'flac', 'ogg'] as const;
const M4A = new URL('../../audio/fixtures/click-index-last.m4a', import.meta.url);
/** Of the second and a half of that file, so often. */
const REPEATS = 27;
const SECONDS = 40;
const RATE = 44_100;

/** A file of the hostile crate. */
export interface HostileFile {
  readonly file: string;
  /** What its tags say; null where its name is what is hostile. */
  readonly text: string | null;
  readonly about: string;
}

/** Writes a crate: every hostile text as title, artist and album of a file, in turn in every format; and every hostile name. */
export async function writeHostileCrate(folder: string): Promise<HostileFile[]> {
  mkdirSync(folder, { recursive: true });
  const { left, right } = renderArrangement(randomArrangement(23));
  const excerpt = [left, right].map((channel) => channel.slice(0, SECONDS * RATE));
  let made = 0;
  // Equal sound would be one track: each file is a little quieter than the one before.
  const write = async (file: string, format: (typeof FORMATS)[number]) => {
    const gain = 1 - made++ / 200;
    if (format === 'm4a') return writeFileSync(file, longerM4a(readFileSync(M4A), REPEATS + made));
    const [l, r] = excerpt.map((channel) => channel.map((v) => v * gain));
    writeFileSync(file, Buffer.concat(await encodeAudio(format, { left: l, right: r })));
  };
  const out: HostileFile[] = [];
  for (const [i, [about, text]] of Object.entries(TEXTS).entries()) {
    const format = FORMATS[i % FORMATS.length];
    const file = join(folder, `${String(i).padStart(2, '0')}.${format}`);
    await write(file, format);
    tag(file, text);
    out.push({ file, text, about });
  }
  for (const name of NAMES) {
    const file = join(folder, `${name}.wav`);
    await write(file, 'wav');
    out.push({ file, text: null, about: `a name like ${JSON.stringify(name.slice(0, 30))}` });
  }
  return out;
}

/** Writes files that are no music, under every hostile name. */
export function writeBadCrate(folder: string): void {
  mkdirSync(folder, { recursive: true });
  for (const name of NAMES) writeFileSync(join(folder, `${name}.mp3`), 'not music at all');
}

function tag(path: string, text: string): void {
  const tagged = File.createFromPath(path);
  try {
    tagged.tag.title = text;
    tagged.tag.performers = [text];
    tagged.tag.album = text;
    tagged.tag.comment = text;
    tagged.tag.genres = [text];
    tagged.save();
  } finally {
    tagged.dispose();
  }
}
