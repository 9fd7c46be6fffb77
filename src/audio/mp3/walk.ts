import type { ByteRange, ByteReader } from '../bytes.js';
import { afterId3 } from '../sniff.js';
import { parseMpegHeader, sameStream, type MpegHeader } from './header.js';

/** The frames of an MPEG audio stream, as they stand in the file. */
export interface FrameWalk {
  readonly first: MpegHeader;
  /** Byte position of every frame. */
  readonly offsets: readonly number[];
  /** Bytes of every frame. */
  readonly lengths: readonly number[];
  /** Number of every frame, those counted that were lost before it. */
  readonly numbers: readonly number[];
  /** Places where the chain of frames was broken. */
  readonly breaks: number;
  /** The last frame's end is missing. */
  readonly cut: boolean;
  /** Bytes after the last frame that are neither frames nor a tag nor zeros. */
  readonly rest: number;
}

/** Walks from frame to frame and finds the way back after a break. @param end where the audio ends and tags begin */
export async function walkFrames(reader: ByteReader, start: number, end: number): Promise<FrameWalk | null> {
  const offsets: number[] = [];
  const lengths: number[] = [];
  const numbers: number[] = [];
  let first: MpegHeader | null = null;
  let [breaks, frame, bytes, rest] = [0, 0, 0, 0];
  let cut = false;
  for (let at = start; at + 4 <= end;) {
    const header = parseMpegHeader(await reader.at(at, 4));
    const fits = header !== null && (first === null || sameStream(first, header));
    if (fits && at + header.length <= end) {
      first ??= header;
      offsets.push(at);
      lengths.push(header.length);
      numbers.push(frame++);
      bytes += header.length;
      at += header.length;
      continue;
    }
    const next = first && (await findNext(reader, at, end, first));
    if (!next) {
      cut = fits;
      rest = fits || (await isZero(reader, at, end)) ? 0 : end - at;
      break;
    }
    if (!next.tag) {
      // what was lost is told by the usual length of a frame; exact at a constant bit rate
      frame += Math.round(((next.offset - at) * offsets.length) / bytes);
      breaks++;
    }
    at = next.offset;
  }
  return first && { first, offsets, lengths, numbers, breaks, cut, rest };
}

/** Whether a frame follows the one before it without a gap, in time and in the file. */
export function follows(walk: FrameWalk, i: number): boolean {
  return (
    i > 0 &&
    walk.numbers[i] === walk.numbers[i - 1] + 1 &&
    walk.offsets[i] === walk.offsets[i - 1] + walk.lengths[i - 1]
  );
}

/** The frames' stretches of the file. */
export function frameRanges(walk: FrameWalk): ByteRange[] {
  const ranges: ByteRange[] = [];
  for (let i = 0; i < walk.offsets.length;) {
    const offset = walk.offsets[i];
    let end = offset;
    while (i < walk.offsets.length && walk.offsets[i] === end) end += walk.lengths[i++];
    ranges.push({ offset, length: end - offset });
  }
  return ranges;
}

/** The next place where two headers stand in a row. An ID3v2 tag between two files that were joined is no damage. */
async function findNext(reader: ByteReader, from: number, end: number, like: MpegHeader) {
  const afterTag = await afterId3(reader, from);
  if (afterTag > from && parseMpegHeader(await reader.at(afterTag, 4))) return { offset: afterTag, tag: true };
  for (let at = from; at + 4 <= end; at++) {
    const bytes = await reader.copy(at, 1 << 16);
    let found = bytes.indexOf(0xff);
    for (; found >= 0 && found + 4 <= bytes.length; found = bytes.indexOf(0xff, found + 1)) {
      const header = parseMpegHeader(bytes, found);
      if (!header || !sameStream(like, header)) continue;
      const after = at + found + header.length;
      const next = after + 4 <= end ? parseMpegHeader(await reader.copy(after, 4)) : null;
      if (after === end || (next && sameStream(like, next))) return { offset: at + found, tag: false };
    }
    at += bytes.length - 4;
  }
  return null;
}

async function isZero(reader: ByteReader, from: number, end: number): Promise<boolean> {
  for (let at = from; at < end; at += 4096) {
    const bytes = await reader.at(at, Math.min(4096, end - at));
    if (bytes.some((b) => b !== 0)) return false;
  }
  return true;
}
