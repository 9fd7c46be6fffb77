import { BarwiseError } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceFrames, type Piece } from '../decoder/pieces.js';
import { pieceSource } from '../decoder/source.js';
import { beforeTrailingTags } from '../trailing.js';
import { endsEarly } from '../warnings.js';
import { headOf, readStreamInfo } from './streaminfo.js';
import { walkFlac, type FlacFrame } from './walk.js';

/** Opens a FLAC file. @param start position of "fLaC" */
export async function openFlac(reader: ByteReader, file: string, start: number): Promise<Container> {
  const info = await readStreamInfo(reader, file, start);
  const end = await beforeTrailingTags(reader, info.audio);
  const walked = await walkFlac(reader, info, end);
  if (walked.length === 0) {
    throw new BarwiseError('damaged', `${file} is a FLAC file without one whole frame: copy the file again.`, { file });
  }
  const last = walked[walked.length - 1];
  const there = last.start + last.frames;
  const { sampleRate, channels, total } = info;
  const list = {
    codec: 'flac',
    sampleRate,
    channels,
    skip: 0,
    frames: total > 0 ? Math.min(total, there) : there,
    pieces: piecesOf(walked, headOf(info), channels),
  } as const;
  return {
    codec: `FLAC ${info.bits}-bit`,
    sampleRate,
    channels,
    frames: list.frames,
    digestParts: [info.bytes, { offset: info.audio, length: end - info.audio }],
    warnings: endsEarly(total, there, sampleRate),
    source: (options) => pieceSource(file, list, options),
  };
}

function piecesOf(frames: readonly FlacFrame[], head: Uint8Array, channels: number): Piece[] {
  const most = pieceFrames(channels);
  const pieces: Piece[] = [];
  for (let i = 0; i < frames.length;) {
    let to = i + 1;
    for (let length = frames[i].frames; to < frames.length && length < most && follows(frames, to); to++) {
      length += frames[to].frames;
    }
    pieces.push(pieceOf(frames, head, i, to));
    i = to;
  }
  return pieces;
}

function follows(frames: readonly FlacFrame[], i: number): boolean {
  const before = frames[i - 1];
  return frames[i].start === before.start + before.frames && frames[i].offset === before.offset + before.length;
}

function pieceOf(frames: readonly FlacFrame[], head: Uint8Array, i: number, to: number): Piece {
  const { offset, start } = frames[i];
  const last = frames[to - 1];
  return {
    start,
    frames: last.start + last.frames - start,
    leadIn: 0,
    async bytes(reader) {
      const audio = await reader.copy(offset, last.offset + last.length - offset);
      const whole = new Uint8Array(head.length + audio.length);
      whole.set(head);
      whole.set(audio, head.length);
      return whole;
    },
    halves() {
      if (to - i < 2) return null;
      const middle = (i + to) >> 1;
      return [pieceOf(frames, head, i, middle), pieceOf(frames, head, middle, to)];
    },
  };
}
