import { crc8 } from '../crc.js';

/** What the head of a FLAC frame says (RFC 9639, 9.1). */
export interface FlacHeader {
  /** Frame number, or number of the first sample where block sizes vary. */
  readonly number: number;
  readonly variable: boolean;
  readonly blockSize: number;
}

/** Most bytes a frame header can have. */
export const MAX_HEADER = 16;

/** Reads and checks a frame header; `null` where there is none. */
export function parseFlacHeader(bytes: Uint8Array, at: number): FlacHeader | null {
  if (at + 6 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1] & 0xfe) !== 0xf8) return null;
  const sizeCode = bytes[at + 2] >> 4;
  const rateCode = bytes[at + 2] & 15;
  if (sizeCode === 0 || rateCode === 15 || bytes[at + 3] >> 4 > 10 || (bytes[at + 3] & 1) !== 0) return null;
  const coded = codedNumber(bytes, at + 4);
  if (!coded) return null;
  let end = coded.end;
  let blockSize = sizeCode === 1 ? 192 : sizeCode < 6 ? 576 << (sizeCode - 2) : 1 << sizeCode;
  if (sizeCode === 6) blockSize = bytes[end++] + 1;
  if (sizeCode === 7) {
    blockSize = ((bytes[end] << 8) | bytes[end + 1]) + 1;
    end += 2;
  }
  end += rateCode === 12 ? 1 : rateCode >= 13 ? 2 : 0;
  if (end >= bytes.length || crc8(bytes, at, end) !== bytes[end]) return null;
  return { number: coded.value, variable: (bytes[at + 1] & 1) === 1, blockSize };
}

/** A number in the way of UTF-8, of up to seven bytes. */
function codedNumber(bytes: Uint8Array, at: number): { value: number; end: number } | null {
  const lead = bytes[at];
  if (lead < 0x80) return { value: lead, end: at + 1 };
  const more = Math.clz32(~(lead << 24)) - 1;
  if (more < 1 || more > 6 || at + more >= bytes.length) return null;
  let value = lead & (0x3f >> more);
  for (let k = 1; k <= more; k++) {
    if ((bytes[at + k] & 0xc0) !== 0x80) return null;
    value = value * 64 + (bytes[at + k] & 0x3f);
  }
  return { value, end: at + more + 1 };
}
