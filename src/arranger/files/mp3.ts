import { createMp3Encoder } from 'wasm-media-encoders';
import type { RunOptions } from '../../units/index.js';
import type { Stereo } from '../mix/feed.js';
import { RATE } from '../sound/shot.js';
import { infoFrame } from './info-frame.js';
import { piecesOf } from './pieces.js';

const KILOBITS = 192;

export interface Mp3Options extends RunOptions {
  /** Bit rate in kbit/s, 192 by default. */
  readonly kilobits?: 64 | 96 | 128 | 192;
}

/**
 * Encodes two channels at 44.1 kHz as an MP3 of constant bit rate. The encoder leaves out the frame that tells players how much
 * silence it put in front and behind, so we write that frame ourselves: a player that heeds it gives back exactly the
 * frames that went in.
 */
export async function encodeMp3(audio: Stereo, options: Mp3Options = {}): Promise<Uint8Array[]> {
  const encoder = await createMp3Encoder();
  encoder.configure({ sampleRate: RATE, channels: 2, bitrate: options.kilobits ?? KILOBITS });
  const parts: Uint8Array[] = [];
  // The encoder hands out its own memory: everything has to be copied.
  for await (const { left, right } of piecesOf(audio, options)) parts.push(encoder.encode([left, right]).slice());
  parts.push(encoder.finalize().slice());
  return [infoFrame(Buffer.concat(parts), audio.left.length), ...parts];
}
