import type { ByteReader } from '../bytes.js';
import { pieceFrames, type Piece } from '../decoder/pieces.js';
import { join } from '../join.js';
import { headPages, type VorbisHead } from './headers.js';
import { pagesOf } from './page.js';
import type { AudioPage } from './walk.js';

/** Cuts a stream into pieces of whole pages; a piece ends where pages were lost. @param origin granule of the first decoded frame */
export function oggPieces(head: VorbisHead, pages: readonly AudioPage[], origin: number): Piece[] {
  const most = pieceFrames(head.setup.channels);
  const pieces: Piece[] = [];
  for (let i = 0, runStart = 0; i < pages.length;) {
    if (!pages[i].follows) runStart = i;
    let to = i + 1;
    for (let length = pages[i].frames; to < pages.length && length < most && pages[to].follows; to++) {
      length += pages[to].frames;
    }
    const piece = pieceOf(head, pages, origin, runStart, i, to);
    if (piece.frames > 0) pieces.push(piece);
    i = to;
  }
  return pieces;
}

function pieceOf(
  head: VorbisHead,
  pages: readonly AudioPage[],
  origin: number,
  runStart: number,
  i: number,
  to: number,
): Piece {
  return {
    start: startOf(pages, origin, i),
    frames: pages.slice(i, to).reduce((total, page) => total + page.frames, 0),
    leadIn: 0,
    bytes: (reader) => wholeFile(reader, head, pages, runStart, i, to),
    halves() {
      if (to - i < 2) return null;
      const middle = (i + to) >> 1;
      return [pieceOf(head, pages, origin, runStart, i, middle), pieceOf(head, pages, origin, runStart, middle, to)];
    },
  };
}

/** Where the samples of a page begin: where those before it end, or after a loss as its own position says. */
function startOf(pages: readonly AudioPage[], origin: number, i: number): number {
  if (i === 0) return 0;
  if (pages[i].follows) return pages[i - 1].end - origin;
  let sum = 0;
  for (let k = i; k < pages.length; k++) {
    sum += pages[k].frames;
    if (pages[k].page.granule !== null) return pages[k].end - sum - origin;
  }
  return pages[i].end - origin;
}

/** The packets that end on pages i … to − 1, after the one before them, which the decoder needs to overlap. */
async function wholeFile(
  reader: ByteReader,
  head: VorbisHead,
  pages: readonly AudioPage[],
  runStart: number,
  i: number,
  to: number,
): Promise<Uint8Array> {
  let from = i;
  for (let before = 0; from > runStart && before < 2;) before += pages[--from].packets;
  const packets: Uint8Array[] = [];
  let pending: Uint8Array[] | null = null;
  let wanted = 0;
  for (let p = from; p < to; p++) {
    const { page } = pages[p];
    const bytes = await reader.copy(page.offset, page.length);
    let at = page.headerLength;
    page.lengths.forEach((length, k) => {
      const part = bytes.subarray(at, at + length);
      at += length;
      if (k > 0 || !page.continued) pending = [part];
      else pending?.push(part);
      if (k === page.lengths.length - 1 && page.open) return;
      if (pending) packets.push(join(pending));
      pending = null;
      if (p >= i) wanted++;
    });
  }
  const kept = packets.slice(-(wanted + 1));
  const out = headPages(head);
  let granule = 0;
  let block = 0;
  kept.forEach((bytes, k) => {
    const size = bytes.length > 0 ? (head.setup.blockSize(bytes[0]) ?? 0) : 0;
    if (block > 0 && size > 0) granule += (block + size) / 4;
    if (size > 0) block = size;
    out.push(...pagesOf({ bytes, granule }, out.length, { last: k === kept.length - 1 }));
  });
  return join(out);
}
