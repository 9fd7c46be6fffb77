import { createReadStream } from 'node:fs';
import { extname } from 'node:path';
import { parseFile, parseStream, type IAudioMetadata } from 'music-metadata';
import type { ContainerKind } from './sniff.js';
import type { Tags } from './source.js';

const EXTENSIONS: Record<ContainerKind, readonly string[]> = {
  wav: ['.wav', '.wave'],
  aiff: ['.aif', '.aiff', '.aifc'],
  flac: ['.flac'],
  mp3: ['.mp3'],
  ogg: ['.ogg', '.oga'],
  mp4: ['.m4a', '.mp4'],
  adts: ['.aac'],
};
const MIME: Record<ContainerKind, string> = {
  wav: 'audio/wav',
  aiff: 'audio/aiff',
  flac: 'audio/flac',
  mp3: 'audio/mpeg',
  ogg: 'audio/ogg',
  mp4: 'audio/mp4',
  adts: 'audio/aac',
};

export const NO_TAGS: Tags = { title: null, artist: null, album: null, year: null, genre: null, comment: null };

/** Reads the tags a person would look for; a file whose tags cannot be read has none. */
export async function readTags(file: string, kind: ContainerKind): Promise<Tags> {
  const metadata = await parse(file, kind).catch(() => null);
  if (!metadata) return NO_TAGS;
  const { title, artist, album, year, genre, comment } = metadata.common;
  const first = comment?.[0];
  return {
    title: clean(title),
    artist: clean(artist),
    album: clean(album),
    year: Number.isInteger(year) ? year! : null,
    genre: clean(genre?.[0]),
    comment: clean(first?.text),
  };
}

async function parse(file: string, kind: ContainerKind): Promise<IAudioMetadata> {
  const options = { duration: false, skipCovers: true };
  // the reader goes by the name where it has one, so a file with another kind's name is handed over as a stream
  if (EXTENSIONS[kind].includes(extname(file).toLowerCase())) return parseFile(file, options);
  const stream = createReadStream(file);
  try {
    return await parseStream(stream, { mimeType: MIME[kind] }, options);
  } finally {
    stream.destroy();
  }
}

/** Characters that are kept of a tag: a file that says more says it to do harm. */
const MOST_CHARACTERS = 2000;

/** Without zero bytes and halves of characters, and no longer than anybody would print. */
function clean(value: string | undefined): string | null {
  // Cut twice: the first time only so that what follows is quick.
  const plain = value
    ?.slice(0, 4 * MOST_CHARACTERS)
    .replaceAll('\0', '')
    .replace(/\p{Surrogate}/gu, '\ufffd')
    .trim();
  if (!plain) return null;
  const characters = [...plain];
  return characters.length > MOST_CHARACTERS ? `${characters.slice(0, MOST_CHARACTERS - 1).join('')}…` : plain;
}
