import type { ByteReader } from '../bytes.js';
import type { VorbisHead } from './headers.js';
import { findPage, readPage, type OggPage } from './page.js';

/** An audio page and where its samples belong. */
export interface AudioPage {
  readonly page: OggPage;
  /** Packets that end on this page. */
  readonly packets: number;
  /** Frames they give. */
  readonly frames: number;
  /** Position after its last sample, in granules. */
  readonly end: number;
  /** It follows the page before it without loss. */
  readonly follows: boolean;
}

export interface OggWalk {
  readonly pages: readonly AudioPage[];
  /** The page that says it is the last one was there. */
  readonly complete: boolean;
}

/** Goes through the audio pages of a stream; pages that are damaged or belong to others are left out. */
export async function walkOgg(reader: ByteReader, head: VorbisHead): Promise<OggWalk> {
  const pages: AudioPage[] = [];
  let sequence: number | null = null;
  let complete = false;
  let block = 0; // size of the block before
  let open: number | null = null; // first byte of a packet that goes on
  let lost = false;
  let end = 0;
  for (let at: number | null = head.audio; at !== null && !complete;) {
    const page: OggPage | null = await readPage(reader, at);
    if (!page) {
      lost = true;
      at = await findPage(reader, at + 1);
      continue;
    }
    at += page.length;
    if (page.serial !== head.serial) continue;
    if (page.first) break; // another stream is chained on
    if (lost || (sequence !== null && page.sequence !== sequence + 1)) {
      lost = true;
      block = 0;
      open = null;
    }
    const bytes = await reader.at(page.offset, page.length);
    let from = page.headerLength;
    let [packets, frames] = [0, 0];
    page.lengths.forEach((length, i) => {
      const begins = i > 0 || !page.continued;
      const firstByte = begins ? (length > 0 ? bytes[from] : null) : open;
      from += length;
      if (i === page.lengths.length - 1 && page.open) {
        open = firstByte;
        return;
      }
      packets++;
      open = null;
      const size = firstByte === null ? null : head.setup.blockSize(firstByte);
      if (size === null) return;
      if (block > 0) frames += (block + size) / 4; // Vorbis I specification, 4.3.8
      block = size;
    });
    end = page.granule ?? end;
    pages.push({ page, packets, frames, end, follows: pages.length > 0 && !lost });
    lost = false;
    sequence = page.sequence;
    complete = page.last;
  }
  return { pages, complete };
}
