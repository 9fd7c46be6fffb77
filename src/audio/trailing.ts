import { text, viewOf, type ByteReader } from './bytes.js';

/**
 * Where the audio ends: before ID3v1, APEv2 and Lyrics3v2 tags, in whatever order they stand.
 * @param start tags do not reach back beyond this position
 */
export async function beforeTrailingTags(reader: ByteReader, start: number): Promise<number> {
  let end = reader.size;
  for (;;) {
    const tag = await trailingTag(reader, start, end);
    if (tag <= 0) return end;
    end = Math.max(start, end - tag);
  }
}

/** Bytes of the tag that ends at a position, 0 if none does. */
async function trailingTag(reader: ByteReader, start: number, end: number): Promise<number> {
  if (end - start >= 128 && text(await reader.copy(end - 128, 3), 0, 3) === 'TAG') return 128;
  const ape = end - start >= 32 ? await reader.copy(end - 32, 32) : new Uint8Array(0);
  if (text(ape, 0, 8) === 'APETAGEX') {
    const view = viewOf(ape);
    return view.getUint32(12, true) + (view.getUint32(20, true) & 0x80000000 ? 32 : 0);
  }
  const lyrics = end - start >= 15 ? text(await reader.copy(end - 15, 15), 0, 15) : '';
  return lyrics.endsWith('LYRICS200') ? 15 + Number(lyrics.slice(0, 6)) : 0;
}
