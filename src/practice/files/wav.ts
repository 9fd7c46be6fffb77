import { encodeWav } from '../../audio/index.js';
import { RATE } from '../sound/stereo.js';
import type { PracticeSound } from './marker.js';

/**
 * A WAV file with cue points, their labels, title and comment: the chunks `cue `, `LIST adtl` (`labl`) and `LIST INFO` of
 * "Multimedia Programming Interface and Data Specifications 1.0" (IBM, Microsoft 1991).
 */
export function wavWithCues({ left, right, title, comment, markers }: PracticeSound): Uint8Array {
  const audio = encodeWav([left, right], RATE, { bitDepth: 16, dither: true });
  const info = list('INFO', [chunk('INAM', text(title)), chunk('ICMT', text(comment)), chunk('ISFT', text('Barwise'))]);
  const points = markers.map(({ time, label }, i) => ({ id: i + 1, frame: Math.round(time * RATE), label }));
  const extra =
    points.length === 0
      ? [info]
      : [
          cueChunk(points),
          list(
            'adtl',
            points.map(({ id, label }) => chunk('labl', [...number(id), ...text(label)])),
          ),
          info,
        ];
  const out = Buffer.concat([audio, ...extra.map((bytes) => Uint8Array.from(bytes))]);
  out.writeUInt32LE(out.length - 8, 4);
  return out;
}

function cueChunk(points: readonly { readonly id: number; readonly frame: number }[]): number[] {
  const body = points.flatMap(({ id, frame }) => [
    ...number(id),
    ...number(frame),
    ...ascii('data'),
    ...number(0),
    ...number(0),
    ...number(frame),
  ]);
  return chunk('cue ', [...number(points.length), ...body]);
}

function list(type: string, chunks: readonly number[][]): number[] {
  return chunk('LIST', [...ascii(type), ...chunks.flat()]);
}

/** A chunk: name, length, bytes, and one more where the length is odd. */
function chunk(name: string, bytes: readonly number[]): number[] {
  return [...ascii(name), ...number(bytes.length), ...bytes, ...(bytes.length % 2 === 1 ? [0] : [])];
}

const number = (value: number): number[] => [value & 255, (value >>> 8) & 255, (value >>> 16) & 255, value >>> 24];
const ascii = (name: string): number[] => [...name].map((c) => c.charCodeAt(0));
const text = (value: string): number[] => [...Buffer.from(value, 'utf8'), 0];
