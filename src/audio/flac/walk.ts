import type { ByteReader } from '../bytes.js';
import { CRC16 } from '../crc.js';
import { MAX_HEADER, parseFlacHeader, type FlacHeader } from './header.js';
import type { StreamInfo } from './streaminfo.js';

/** A frame whose checksum is right. */
export interface FlacFrame {
  readonly offset: number;
  readonly length: number;
  /** Sample frame it begins with. */
  readonly start: number;
  readonly frames: number;
}

/** Bytes looked at in one go. */
const STRETCH = 1 << 16;

/**
 * Finds the frames of a FLAC stream. A frame's length is written nowhere: it ends where the next header stands and the
 * checksum over everything since its own header comes out as zero. Frames whose checksum is wrong are left out.
 * @param end where the audio ends and foreign tags begin
 */
export async function walkFlac(reader: ByteReader, info: StreamInfo, end: number): Promise<FlacFrame[]> {
  const frames: FlacFrame[] = [];
  let open: { offset: number; header: FlacHeader } | null = null;
  let crc = 0;
  const startOf = (h: FlacHeader) => (h.variable ? h.number : h.number * info.maxBlock);
  const close = (at: number) => {
    if (open && crc === 0) {
      const { offset, header } = open;
      frames.push({ offset, length: at - offset, start: startOf(header), frames: header.blockSize });
    }
  };
  for (let at = info.audio; at < end;) {
    const bytes = await reader.at(at, Math.min(STRETCH + MAX_HEADER, end - at));
    if (bytes.length === 0) break;
    const last = at + bytes.length >= end;
    const until = last ? bytes.length : bytes.length - MAX_HEADER;
    for (let i = 0; i < until; i++) {
      if (bytes[i] === 0xff && (bytes[i + 1] & 0xfe) === 0xf8) {
        const header = parseFlacHeader(bytes, i);
        if (header && (crc === 0 || plausible(header, open?.header ?? null, info, startOf))) {
          close(at + i);
          open = { offset: at + i, header };
          crc = 0;
        }
      }
      crc = ((crc << 8) & 0xffff) ^ CRC16[(crc >> 8) ^ bytes[i]];
    }
    at += until;
  }
  close(end);
  return frames;
}

/** Whether a header that stands where the frame before it is not whole can be genuine: it must lead forward, in bounds. */
function plausible(
  header: FlacHeader,
  before: FlacHeader | null,
  info: StreamInfo,
  startOf: (h: FlacHeader) => number,
): boolean {
  const start = startOf(header);
  if (info.total > 0 && start + header.blockSize > info.total) return false;
  if (!before) return true;
  return header.variable === before.variable && start >= startOf(before) + before.blockSize;
}
