import type { ByteRange, ByteReader } from '../bytes.js';
import { afterId3 } from '../sniff.js';

/** A kind of stream whose frames each begin with a header that tells their length. */
export interface FrameKind<Header extends { readonly length: number }> {
  /** Most bytes a header needs. */
  readonly headerBytes: number;
  readonly parse: (bytes: Uint8Array, at: number) => Header | null;
  /** Whether two headers can belong to one stream. */
  readonly same: (a: Header, b: Header) => boolean;
  /** Whether a frame carries only information; asked where another file was joined on. */
  readonly silent?: (frame: Uint8Array, header: Header) => boolean;
}

/** The frames of a stream, as they stand in the file. */
export interface FrameWalk<Header> {
  readonly first: Header;
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
export async function walkFrames<Header extends { readonly length: number }>(
  reader: ByteReader,
  kind: FrameKind<Header>,
  start: number,
  end: number,
): Promise<FrameWalk<Header> | null> {
  const offsets: number[] = [];
  const lengths: number[] = [];
  const numbers: number[] = [];
  let first: Header | null = null;
  let [breaks, frame, bytes, rest] = [0, 0, 0, 0];
  let cut = false;
  for (let at = start; at + 4 <= end;) {
    const header: Header | null = kind.parse(await reader.at(at, kind.headerBytes), 0);
    const fits = header !== null && (first === null || kind.same(first, header));
    if (fits && at + header.length <= end) {
      first ??= header;
      offsets.push(at);
      lengths.push(header.length);
      numbers.push(frame++);
      bytes += header.length;
      at += header.length;
      continue;
    }
    const next = first && (await findNext(reader, kind, at, end, first));
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
    if (next.tag) at += await silentLength(reader, kind, at);
  }
  return first && { first, offsets, lengths, numbers, breaks, cut, rest };
}

/** Bytes of the frame at a position if it is to be left out, else 0. */
async function silentLength<Header extends { readonly length: number }>(
  reader: ByteReader,
  kind: FrameKind<Header>,
  at: number,
): Promise<number> {
  const header = kind.parse(await reader.copy(at, kind.headerBytes), 0);
  return header && kind.silent?.(await reader.copy(at, header.length), header) ? header.length : 0;
}

/** Whether a frame follows the one before it without a gap, in time and in the file. */
export function follows(walk: FrameWalk<unknown>, i: number): boolean {
  return (
    i > 0 &&
    walk.numbers[i] === walk.numbers[i - 1] + 1 &&
    walk.offsets[i] === walk.offsets[i - 1] + walk.lengths[i - 1]
  );
}

/** The frames' stretches of the file. */
export function frameRanges(walk: FrameWalk<unknown>): ByteRange[] {
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
async function findNext<Header extends { readonly length: number }>(
  reader: ByteReader,
  { headerBytes, parse, same }: FrameKind<Header>,
  from: number,
  end: number,
  like: Header,
) {
  const afterTag = await afterId3(reader, from);
  if (afterTag > from && parse(await reader.at(afterTag, headerBytes), 0)) return { offset: afterTag, tag: true };
  for (let at = from; at + headerBytes <= end; at++) {
    const bytes = await reader.copy(at, 1 << 16);
    let found = bytes.indexOf(0xff);
    for (; found >= 0 && found + headerBytes <= bytes.length; found = bytes.indexOf(0xff, found + 1)) {
      const header = parse(bytes, found);
      if (!header || !same(like, header)) continue;
      const after = at + found + header.length;
      const next = after + headerBytes <= end ? parse(await reader.copy(after, headerBytes), 0) : null;
      if (after === end || (next && same(like, next))) return { offset: at + found, tag: false };
    }
    at += Math.max(0, bytes.length - headerBytes);
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
