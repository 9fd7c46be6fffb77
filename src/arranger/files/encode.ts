import { encodeWav } from '../../audio/index.js';
import type { RunOptions } from '../../units/index.js';
import type { DemoFormat } from '../demo-track.js';
import type { Stereo } from '../mix/feed.js';
import { RATE } from '../sound/shot.js';
import { encodeFlac } from './flac.js';
import { encodeMp3 } from './mp3.js';
import { encodeOgg } from './ogg.js';

const ENCODERS: Record<DemoFormat, (audio: Stereo, options: RunOptions) => Promise<Uint8Array[]>> = {
  wav: (audio) => Promise.resolve([encodeWav([audio.left, audio.right], RATE)]),
  flac: encodeFlac,
  mp3: encodeMp3,
  ogg: encodeOgg,
};

/** Two channels at 44.1 kHz as the bytes of a file without tags: WAV, FLAC, MP3 or Ogg Vorbis. */
export function encodeAudio(format: DemoFormat, audio: Stereo, options: RunOptions = {}): Promise<Uint8Array[]> {
  return ENCODERS[format](audio, options);
}
