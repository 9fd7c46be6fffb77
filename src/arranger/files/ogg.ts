import { createOggEncoder } from 'wasm-media-encoders';
import type { RunOptions } from '../../units/index.js';
import type { Stereo } from '../mix/feed.js';
import { RATE } from '../sound/shot.js';
import { piecesOf } from './pieces.js';

/** Quality on the encoder's scale from −1 to 10; 6 is about 190 kbit/s. */
const QUALITY = 6;
/** The number of the logical stream; always the same, so that the same music gives the same file. */
const STREAM = 0x626172;

/** Encodes two channels at 44.1 kHz as Ogg Vorbis. */
export async function encodeOgg(audio: Stereo, options: RunOptions = {}): Promise<Uint8Array[]> {
  const encoder = await createOggEncoder();
  encoder.configure({ sampleRate: RATE, channels: 2, vbrQuality: QUALITY, oggSerialNo: STREAM });
  const parts: Uint8Array[] = [];
  for await (const { left, right } of piecesOf(audio, options)) parts.push(encoder.encode([left, right]).slice());
  parts.push(encoder.finalize().slice());
  return parts;
}
