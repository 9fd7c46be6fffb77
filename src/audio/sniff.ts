import { BarwiseError } from '../units/index.js';
import { parseAdtsHeader } from './aac/adts.js';
import { text, type ByteReader } from './bytes.js';
import { parseMpegHeader } from './mp3/header.js';

/** The containers that are read. */
export type ContainerKind = 'wav' | 'aiff' | 'flac' | 'mp3' | 'ogg' | 'mp4' | 'adts';

export interface Sniffed {
  readonly kind: ContainerKind;
  /** Where the container starts: after any ID3v2 tags. */
  readonly start: number;
}

/** How far into a file the first MPEG frame may be. */
const SEARCH = 1 << 16;

/** What else a file may be, told by its first bytes. */
const OTHERS: readonly (readonly [string, number, string])[] = [
  ['\x30\x26\xb2\x75', 0, 'an ASF (WMA) file'],
  ['\x1a\x45\xdf\xa3', 0, 'a Matroska or WebM file'],
  ['MAC ', 0, 'an APE file'],
  ['wvpk', 0, 'a WavPack file'],
  ['MPCK', 0, 'a Musepack file'],
  ['MP+', 0, 'a Musepack file'],
  ['DSD ', 0, 'a DSD file'],
  ['FRM8', 0, 'a DSD file'],
  ['caff', 0, 'a CAF file'],
  ['.snd', 0, 'an AU file'],
  ['MThd', 0, 'a MIDI file'],
  ['#!AMR', 0, 'an AMR file'],
];
const NOT_AUDIO: readonly (readonly [string, string])[] = [
  ['%PDF', 'a PDF document'],
  ['PK\x03\x04', 'a ZIP archive'],
  ['\x89PNG', 'a picture'],
  ['\xff\xd8\xff', 'a picture'],
  ['GIF8', 'a picture'],
];

/**
 * Tells the container by its content, never by its name.
 * @throws BarwiseError `unsupported-format` for audio that is not read, `not-audio` for anything else
 */
export async function sniff(reader: ByteReader, file: string): Promise<Sniffed> {
  const start = await afterId3(reader);
  const head = await reader.copy(start, 64);
  const id = text(head);
  const form = text(head, 8);
  if ((id === 'RIFF' || id === 'RF64' || id === 'BW64') && form === 'WAVE') return { kind: 'wav', start };
  if (id === 'FORM' && (form === 'AIFF' || form === 'AIFC')) return { kind: 'aiff', start };
  if (id === 'fLaC') return { kind: 'flac', start };
  if (id === 'OggS') return { kind: 'ogg', start };
  if (text(head, 4) === 'ftyp' || id === 'moov') return { kind: 'mp4', start };
  for (const [mark, at, what] of OTHERS) {
    if (text(head, at, mark.length) === mark) {
      throw new BarwiseError(
        'unsupported-format',
        `${file} is ${what}, which is not read: convert it to FLAC or WAV.`,
        {
          file,
        },
      );
    }
  }
  const other = NOT_AUDIO.find(([mark]) => text(head, 0, mark.length) === mark);
  if (!other) {
    const found = await findFrames(reader, start);
    if (found) return found;
  }
  const what = other?.[1] ?? (isText(await reader.copy(start, 512)) ? 'a text file' : null);
  const why = what ? `is ${what}` : 'holds nothing known as audio';
  throw new BarwiseError('not-audio', `${file} ${why}: give a WAV, AIFF, FLAC, MP3, Ogg Vorbis or M4A file.`, { file });
}

/** Position after any ID3v2 tags at the start. */
export async function afterId3(reader: ByteReader, from = 0): Promise<number> {
  let start = from;
  for (;;) {
    const head = await reader.at(start, 10);
    if (head.length < 10 || text(head, 0, 3) !== 'ID3') return start;
    const footer = head[5] & 0x10 ? 10 : 0;
    start += 10 + footer + ((head[6] << 21) | (head[7] << 14) | (head[8] << 7) | head[9]);
  }
}

/** MPEG audio has no signature: three frame headers in a row, where each says the next is, are taken as one. */
async function findFrames(reader: ByteReader, start: number): Promise<Sniffed | null> {
  const bytes = await reader.copy(start, SEARCH + 3 * 8192);
  const chain = (at: number, length: (at: number) => number | null): boolean => {
    let frames = 0;
    while (frames < 3 && at < bytes.length) {
      const step = length(at);
      if (!step) return false;
      at += step;
      frames++;
    }
    // a file of one or two whole frames is short but genuine
    return frames === 3 || (frames > 0 && at === bytes.length && bytes.length < SEARCH);
  };
  for (let at = 0; at < Math.min(SEARCH, bytes.length - 4); at++) {
    if (bytes[at] !== 0xff || (bytes[at + 1] & 0xe0) !== 0xe0) continue;
    if (chain(at, (i) => parseMpegHeader(bytes, i)?.length ?? null)) return { kind: 'mp3', start: start + at };
    if (chain(at, (i) => parseAdtsHeader(bytes, i)?.length ?? null)) return { kind: 'adts', start: start + at };
  }
  return null;
}

function isText(bytes: Uint8Array): boolean {
  if (bytes.length === 0) return false;
  let printable = 0;
  for (const b of bytes) if (b === 9 || b === 10 || b === 13 || (b >= 32 && b !== 127)) printable++;
  return printable / bytes.length > 0.95 && !bytes.includes(0);
}
