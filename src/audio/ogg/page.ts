import { text, viewOf, type ByteReader } from '../bytes.js';
import { crc32 } from '../crc.js';

/** A page of an Ogg stream (RFC 3533, 6). */
export interface OggPage {
  readonly offset: number;
  /** Bytes of header and body. */
  readonly length: number;
  readonly headerLength: number;
  readonly continued: boolean;
  readonly first: boolean;
  readonly last: boolean;
  /** Position of the last sample that is complete on this page; `null` when no packet ends here. */
  readonly granule: number | null;
  readonly serial: number;
  readonly sequence: number;
  /** Lengths of the packets, or parts of packets, on the page; the last one may go on. */
  readonly lengths: readonly number[];
  /** The last part goes on on the next page. */
  readonly open: boolean;
}

const HEAD = 27;
/** No page is longer: 255 segments of 255 bytes. */
export const MAX_PAGE = HEAD + 255 + 255 * 255;

/** Reads the page at a position and checks its checksum; `null` where there is none or it is damaged. */
export async function readPage(reader: ByteReader, offset: number): Promise<OggPage | null> {
  const bytes = await reader.at(offset, MAX_PAGE);
  if (bytes.length < HEAD || text(bytes) !== 'OggS' || bytes[4] !== 0) return null;
  const segments = bytes[26];
  if (bytes.length < HEAD + segments) return null;
  const lengths: number[] = [];
  let [part, body] = [0, 0];
  let open = false;
  for (let i = 0; i < segments; i++) {
    const lacing = bytes[HEAD + i];
    part += lacing;
    body += lacing;
    open = lacing === 255;
    if (!open || i === segments - 1) {
      lengths.push(part);
      part = 0;
    }
  }
  const length = HEAD + segments + body;
  if (bytes.length < length) return null;
  const page = bytes.slice(0, length);
  const view = viewOf(page);
  const checksum = view.getUint32(22, true);
  view.setUint32(22, 0);
  if (crc32(page) !== checksum) return null;
  const granule = view.getBigInt64(6, true);
  return {
    offset,
    length,
    headerLength: HEAD + segments,
    continued: (page[5] & 1) !== 0,
    first: (page[5] & 2) !== 0,
    last: (page[5] & 4) !== 0,
    granule: granule === -1n ? null : Number(granule),
    serial: view.getUint32(14, true),
    sequence: view.getUint32(18, true),
    lengths,
    open,
  };
}

/** The next place where a page may begin. */
export async function findPage(reader: ByteReader, from: number): Promise<number | null> {
  for (let at = from; at < reader.size;) {
    const bytes = await reader.at(at, 1 << 16);
    for (let i = bytes.indexOf(0x4f); i >= 0 && i + 4 <= bytes.length; i = bytes.indexOf(0x4f, i + 1)) {
      if (text(bytes, i) === 'OggS') return at + i;
    }
    if (bytes.length <= 3) return null;
    at += bytes.length - 3;
  }
  return null;
}

/** What is put on pages: a packet and the position it ends at. */
export interface GranulePacket {
  readonly bytes: Uint8Array;
  readonly granule: number;
}

/** Writes one packet as one or more pages; the next packet begins a new page. */
export function pagesOf(
  packet: GranulePacket,
  sequence: number,
  flags: { first?: boolean; last?: boolean },
): Uint8Array[] {
  const pages: Uint8Array[] = [];
  const { bytes, granule } = packet;
  for (let at = 0, more = true; more;) {
    const left = bytes.length - at;
    more = left >= 255 * 255;
    const size = more ? 255 * 255 : left;
    const segments = more ? 255 : Math.floor(size / 255) + 1;
    const page = new Uint8Array(HEAD + segments + size);
    const view = viewOf(page);
    page.set([0x4f, 0x67, 0x67, 0x53]);
    page[5] = (at > 0 ? 1 : 0) | (flags.first && at === 0 ? 2 : 0) | (flags.last && !more ? 4 : 0);
    view.setBigInt64(6, more ? -1n : BigInt(granule), true);
    view.setUint32(14, 1, true);
    view.setUint32(18, sequence + pages.length, true);
    page[26] = segments;
    page.fill(255, HEAD, HEAD + segments);
    if (!more) page[HEAD + segments - 1] = size % 255;
    page.set(bytes.subarray(at, at + size), HEAD + segments);
    view.setUint32(22, crc32(page), true);
    pages.push(page);
    at += size;
  }
  return pages;
}
