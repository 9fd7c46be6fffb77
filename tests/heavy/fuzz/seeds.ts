import { readdirSync, readFileSync } from 'node:fs';
import { encodeWav } from '../../../src/audio/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from '../../audio/support/encode.js';
import { click, noise } from '../../audio/support/signals.js';

/** A whole file that the damage starts from. */
export interface Seed {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Whether its samples are read without a decoding process. */
  readonly plain: boolean;
  /** What a decoding process is told that it is. */
  readonly codec: 'mp3' | 'flac' | 'vorbis' | 'aac' | null;
}

const RATE = 44_100;
const FIXTURES = new URL('../../audio/fixtures/', import.meta.url);

/** Real files of every format, under a second each, and the fixtures of the decoders' tests. */
export async function seeds(): Promise<Seed[]> {
  const left = noise(0.6 * RATE).map((x, i) => 0.1 * x + Math.sin(i / 20) * 0.4);
  click(RATE, 0.6, 0.3).forEach((x, i) => (left[i] += 0.4 * x));
  const stereo = [left, left.map((x) => -x)];
  const made: [string, Seed['codec'], Uint8Array][] = [
    ['pcm.wav', null, encodeWav(stereo, RATE)],
    ['float.wav', null, encodeWav([left], RATE, { bitDepth: 32 })],
    ['pcm.aiff', null, encodeAiff(stereo, RATE, 24)],
    ['stereo.flac', 'flac', await encodeFlac(stereo, RATE)],
    ['stereo.mp3', 'mp3', await encodeMp3(stereo, RATE)],
    ['stereo.ogg', 'vorbis', await encodeOgg(stereo, RATE)],
  ];
  const fixtures = readdirSync(FIXTURES)
    .filter((name) => !name.endsWith('.md'))
    .map((name): [string, Seed['codec'], Uint8Array] => {
      const codec = name.endsWith('.mp3') ? 'mp3' : name.endsWith('.ogg') ? 'vorbis' : 'aac';
      return [name, codec, readFileSync(new URL(name, FIXTURES))];
    });
  return [...made, ...fixtures].map(([name, codec, bytes]) => ({ name, codec, bytes, plain: codec === null }));
}
