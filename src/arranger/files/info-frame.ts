import type { Frames } from '../../units/index.js';
import { BarwiseError } from '../../units/index.js';

/** Frames of audio in an MPEG-1 layer III frame (ISO/IEC 11172-3). */
const FRAME_SAMPLES: Frames = 1152;
/** What the encoder puts in front of the first sample; its decoder adds 529 more. */
export const ENCODER_DELAY: Frames = 576;
/** Bit rates of MPEG-1 layer III in kbit/s by their index (ISO/IEC 11172-3, table of 2.4.2.3). */
const KILOBITS = [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320] as const;
const RATES = [44100, 48000, 32000] as const;
/** Bytes of header and side information of a stereo frame: the tag follows them. */
const TAG_START = 4 + 32;
const CRC_PLACE = 190;

/** Length in bytes of the frame whose header starts at `at`. */
function frameLength(stream: Uint8Array, at: number): number {
  const kilobits = KILOBITS[stream[at + 2] >> 4];
  const rate = RATES[(stream[at + 2] >> 2) & 3];
  if (stream[at] !== 0xff || (stream[at + 1] & 0xfe) !== 0xfa || !kilobits || !rate) {
    throw new BarwiseError('cannot-write', 'The MP3 encoder gave a stream that is not MPEG-1 layer III.');
  }
  return Math.floor((144000 * kilobits) / rate) + ((stream[at + 2] >> 1) & 1);
}

/** Places in the stream at which its frames start. */
function frameStarts(stream: Uint8Array): number[] {
  const starts: number[] = [];
  for (let at = 0; at + 4 <= stream.length; at += frameLength(stream, at)) starts.push(at);
  return starts;
}

/** The 16-bit cyclic redundancy check of the tag: polynomial 0x8005, reflected, from 0. */
export function crc16(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  }
  return crc;
}

/**
 * The frame that goes in front of an MP3 stream of constant bit rate: a silent frame whose data is an "Info" tag with its
 * LAME extension, layout after "Mp3 Info Tag revision 1" (Bouvigne, 2001–2005).
 * @param stream all frames of the encoder
 * @param frames length of the audio that went in, per channel
 */
export function infoFrame(stream: Uint8Array, frames: Frames): Uint8Array {
  const starts = frameStarts(stream);
  const header = [stream[0], stream[1] | 1, stream[2] & ~2, stream[3]];
  const frame = new Uint8Array(frameLength(Uint8Array.from(header), 0));
  const view = new DataView(frame.buffer);
  const bytes = frame.length + stream.length;
  frame.set(header);
  const text = (at: number, value: string): void => frame.set(Buffer.from(value, 'latin1'), at);

  text(TAG_START, 'Info');
  view.setUint32(TAG_START + 4, 0b1111); // number of frames, bytes, table of contents and quality follow
  view.setUint32(TAG_START + 8, starts.length);
  view.setUint32(TAG_START + 12, bytes);
  for (let percent = 0; percent < 100; percent++) {
    const place = frame.length + starts[Math.floor((percent * starts.length) / 100)];
    frame[TAG_START + 16 + percent] = Math.min(255, Math.floor((256 * place) / bytes));
  }
  view.setUint32(TAG_START + 116, 50); // quality: in the middle, as the encoder was left at its defaults

  const extension = TAG_START + 120;
  text(extension, 'LAME3.100');
  frame[extension + 9] = 1; // revision 0 of the tag, constant bit rate
  const padding = starts.length * FRAME_SAMPLES - ENCODER_DELAY - frames;
  frame[extension + 20] = Math.min(255, KILOBITS[stream[2] >> 4]);
  frame[extension + 21] = ENCODER_DELAY >> 4;
  frame[extension + 22] = ((ENCODER_DELAY & 15) << 4) | (padding >> 8);
  frame[extension + 23] = padding & 255;
  view.setUint32(extension + 28, bytes);
  view.setUint16(extension + 32, crc16(stream));
  view.setUint16(CRC_PLACE, crc16(frame.subarray(0, CRC_PLACE)));
  return frame;
}
