import { BarwiseError, randomNumbers, type Hertz } from '../units/index.js';
import type { AudioBlock } from './source.js';
import { writeAtomically } from './atomic.js';

export interface WavOptions {
  /** 16 and 24 are integers, 32 is IEEE float. Default 16. */
  readonly bitDepth?: 16 | 24 | 32;
  /** Adds triangular dither of ±1 step before rounding (integers only; the same noise every time). Default off. */
  readonly dither?: boolean;
}

const MAX_DATA = 0xffffffff - 1024;
const DITHER_SEED = 0x9e3779b9;

/**
 * A WAV file in memory. Samples beyond −1…1 are clipped in the integer formats and kept in float; NaN becomes 0.
 * @param channels one array a channel, equally long, at most 65535 channels
 * @param rate frames a second, a whole number
 * @throws BarwiseError `bad-option` when the channels differ in length, there is none, or the file would pass 4 GB
 * @example encodeWav([new Float32Array(44100)], 44100).length // 88244
 */
export function encodeWav(channels: AudioBlock, rate: Hertz, options: WavOptions = {}): Uint8Array {
  const { bitDepth = 16, dither = false } = options;
  const frames = channels[0]?.length ?? 0;
  if (channels.length === 0) throw new BarwiseError('bad-option', 'A WAV file needs at least one channel.');
  if (channels.some((c) => c.length !== frames)) {
    throw new BarwiseError('bad-option', 'All channels of a WAV file must be equally long.');
  }
  if (!Number.isInteger(rate) || rate < 1) {
    throw new BarwiseError('bad-option', `The sample rate of a WAV file must be a whole number of hertz, not ${rate}.`);
  }
  const dataBytes = frames * channels.length * (bitDepth / 8);
  if (dataBytes > MAX_DATA) throw new BarwiseError('bad-option', 'A WAV file cannot hold more than 4 GB.');
  const header = wavHeader(channels.length, rate, bitDepth, frames);
  const out = new Uint8Array(header.length + dataBytes + (dataBytes & 1));
  out.set(header);
  const view = new DataView(out.buffer, header.length, dataBytes);
  if (bitDepth === 32) writeFloats(view, channels);
  else writeIntegers(view, channels, bitDepth, dither);
  return out;
}

/**
 * Writes a WAV file, atomically: the name never holds half a file.
 * @throws BarwiseError `bad-option` as encodeWav, `cannot-write` when the file system refuses
 */
export async function writeWav(
  file: string,
  channels: AudioBlock,
  rate: Hertz,
  options: WavOptions = {},
): Promise<void> {
  await writeAtomically(file, [encodeWav(channels, rate, options)]);
}

/** RIFF header, layout as in "Multimedia Programming Interface and Data Specifications 1.0" (IBM, Microsoft 1991). */
function wavHeader(channels: number, rate: number, bitDepth: number, frames: number): Uint8Array {
  const float = bitDepth === 32;
  const frameBytes = (channels * bitDepth) / 8;
  const dataBytes = frames * frameBytes;
  const formatBytes = float ? 18 : 16;
  const size = 12 + 8 + formatBytes + (float ? 12 : 0) + 8;
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const name = (text: string) => {
    for (const c of text) bytes[at++] = c.charCodeAt(0);
  };
  const u32 = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const u16 = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  name('RIFF');
  u32(size - 8 + dataBytes + (dataBytes & 1));
  name('WAVEfmt ');
  u32(formatBytes);
  u16(float ? 3 : 1);
  u16(channels);
  u32(rate);
  u32(rate * frameBytes);
  u16(frameBytes);
  u16(bitDepth);
  if (float) {
    u16(0);
    name('fact');
    u32(4);
    u32(frames);
  }
  name('data');
  u32(dataBytes);
  return bytes;
}

function writeFloats(view: DataView, channels: AudioBlock): void {
  const count = channels.length;
  channels.forEach((samples, c) => {
    for (let i = 0; i < samples.length; i++) {
      const x = samples[i];
      view.setFloat32((i * count + c) * 4, Number.isNaN(x) ? 0 : x, true);
    }
  });
}

function writeIntegers(view: DataView, channels: AudioBlock, bitDepth: 16 | 24, dither: boolean): void {
  const scale = 2 ** (bitDepth - 1);
  const width = bitDepth / 8;
  const stride = channels.length * width;
  const random = dither ? randomNumbers(DITHER_SEED) : null;
  channels.forEach((samples, c) => {
    let at = c * width;
    for (let i = 0; i < samples.length; i++, at += stride) {
      const x = samples[i] * scale + (random ? random() - random() : 0);
      // halves go away from zero, so that a waveform and its negative stay mirror images
      const rounded = x < 0 ? -Math.round(-x) : Math.round(x);
      const n = rounded > scale - 1 ? scale - 1 : rounded < -scale ? -scale : rounded || 0;
      if (bitDepth === 16) {
        view.setInt16(at, n, true);
      } else {
        view.setUint8(at, n & 0xff);
        view.setInt16(at + 1, n >> 8, true);
      }
    }
  });
}
