import { BarwiseError } from '../../units/index.js';
import { text, type ByteReader } from '../bytes.js';
import { join } from '../join.js';
import { findPage, pagesOf, readPage, type OggPage } from './page.js';
import { readIdentification, readSetup, type VorbisSetup } from './setup.js';

/** The head of a Vorbis stream. */
export interface VorbisHead {
  readonly setup: VorbisSetup;
  readonly serial: number;
  /** Identification and setup packet: what decoding depends on. */
  readonly packets: readonly [Uint8Array, Uint8Array];
  /** Position after the last header page. */
  readonly audio: number;
}

/** What else an Ogg file may hold, by the first bytes of its first packet. */
const OTHERS: readonly (readonly [string, string])[] = [
  ['OpusHead', 'Opus'],
  ['Speex', 'Speex'],
  ['\x7fFLAC', 'FLAC in Ogg'],
  ['\x80theora', 'video'],
];

/** Reads up to the first audio page. Throws BarwiseError `unsupported-format` or `damaged`. */
export async function readHeaders(reader: ByteReader, file: string, start: number): Promise<VorbisHead> {
  let serial: number | null = null;
  let other: string | null = null;
  const packets: Uint8Array[] = [];
  let pending: Uint8Array[] = [];
  for (let at: number | null = start; at !== null;) {
    const page: OggPage | null = await readPage(reader, at);
    if (!page) break;
    const bytes = await reader.copy(at, page.length);
    if (page.first) {
      const head = bytes.subarray(page.headerLength);
      if (serial === null && readIdentification(head)) serial = page.serial;
      else other ??= OTHERS.find(([mark]) => text(head, 0, mark.length) === mark)?.[1] ?? null;
    } else if (serial === null) break;
    if (page.serial === serial) {
      let from = page.headerLength;
      page.lengths.forEach((length, i) => {
        pending.push(bytes.subarray(from, from + length));
        from += length;
        if (i < page.lengths.length - 1 || !page.open) {
          packets.push(join(pending));
          pending = [];
        }
      });
    }
    if (packets.length >= 3) {
      const setup = readSetup(packets[0], packets[2]);
      if (!setup) break;
      return { setup, serial: serial!, packets: [packets[0], packets[2]], audio: at + page.length };
    }
    at = await findPage(reader, at + page.length);
  }
  if (serial === null && other) {
    const what = `${file} is an Ogg file with ${other}, and only Vorbis is read: convert it to FLAC or MP3.`;
    throw new BarwiseError('unsupported-format', what, { file });
  }
  throw new BarwiseError('damaged', `${file} is an Ogg file whose head is damaged: copy the file again.`, { file });
}

/** Header pages for a file of our own: the stream's own packets around an empty comment. */
export function headPages(head: VorbisHead): Uint8Array[] {
  const comment = new Uint8Array(16);
  comment.set([3, 0x76, 0x6f, 0x72, 0x62, 0x69, 0x73]);
  comment[15] = 1;
  const pages: Uint8Array[] = [];
  [head.packets[0], comment, head.packets[1]].forEach((bytes, i) => {
    pages.push(...pagesOf({ bytes, granule: 0 }, pages.length, { first: i === 0 }));
  });
  return pages;
}
