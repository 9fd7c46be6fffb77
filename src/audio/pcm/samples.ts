import { viewOf } from '../bytes.js';
import type { AudioBlock } from '../source.js';
import type { SampleFormat } from './layout.js';

/** Turns interleaved stored samples into one array a channel; full scale of an integer format is 1. */
export function toChannels(bytes: Uint8Array, channels: number, format: SampleFormat): AudioBlock {
  const step = channels * format.bytes;
  const frames = Math.floor(bytes.length / step);
  const read = readerOf(viewOf(bytes), format);
  return Array.from({ length: channels }, (_, c) => {
    const out = new Float32Array(frames);
    for (let i = 0, at = c * format.bytes; i < frames; i++, at += step) out[i] = read(at);
    return out;
  });
}

function readerOf(view: DataView, { kind, bytes, littleEndian: le }: SampleFormat): (at: number) => number {
  if (kind === 'float') return bytes === 8 ? (at) => view.getFloat64(at, le) : (at) => view.getFloat32(at, le);
  if (bytes === 1)
    return kind === 'unsigned' ? (at) => (view.getUint8(at) - 128) / 128 : (at) => view.getInt8(at) / 128;
  if (bytes === 2) return (at) => view.getInt16(at, le) / 32768;
  if (bytes === 4) return (at) => view.getInt32(at, le) / 2147483648;
  return le
    ? (at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 8388608
    : (at) => ((view.getInt8(at) << 16) | view.getUint16(at + 1, false)) / 8388608;
}
