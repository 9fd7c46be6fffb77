import { BarwiseError } from '../../units/index.js';
import { viewOf, type ByteReader } from '../bytes.js';

/** The block that every FLAC file begins with (RFC 9639, 8.2). */
export interface StreamInfo {
  readonly minBlock: number;
  readonly maxBlock: number;
  readonly sampleRate: number;
  readonly channels: number;
  readonly bits: number;
  /** Frames of the whole file; 0 when the encoder did not know. */
  readonly total: number;
  /** The 34 bytes themselves. */
  readonly bytes: Uint8Array;
  /** Where the first frame stands. */
  readonly audio: number;
}

/** Reads the metadata blocks up to the first frame. Throws BarwiseError `damaged`. @param start position of "fLaC" */
export async function readStreamInfo(reader: ByteReader, file: string, start: number): Promise<StreamInfo> {
  let bytes: Uint8Array | null = null;
  let at = start + 4;
  for (let last = false; !last;) {
    const head = await reader.at(at, 4);
    if (head.length < 4) throw damaged(file);
    last = (head[0] & 0x80) !== 0;
    const type = head[0] & 0x7f;
    const length = (head[1] << 16) | (head[2] << 8) | head[3];
    if (type === 0 && length >= 34) bytes = await reader.copy(at + 4, 34);
    at += 4 + length;
  }
  if (bytes?.length !== 34) throw damaged(file);
  const view = viewOf(bytes);
  return {
    minBlock: view.getUint16(0, false),
    maxBlock: view.getUint16(2, false),
    sampleRate: view.getUint32(10, false) >>> 12,
    channels: ((bytes[12] >> 1) & 7) + 1,
    bits: (((bytes[12] & 1) << 4) | (bytes[13] >> 4)) + 1,
    total: (bytes[13] & 15) * 2 ** 32 + view.getUint32(14, false),
    bytes,
    audio: at,
  };
}

/** The head of a file of our own with the same properties, of unknown length. */
export function headOf(info: StreamInfo): Uint8Array {
  const head = new Uint8Array(8 + 34);
  head.set([0x66, 0x4c, 0x61, 0x43, 0x80, 0, 0, 34]);
  head.set(info.bytes, 8);
  head[8 + 13] &= 0xf0; // total: unknown
  head.fill(0, 8 + 14);
  return head;
}

function damaged(file: string): BarwiseError {
  return new BarwiseError('damaged', `${file} is a FLAC file whose head is damaged: copy the file again.`, { file });
}
