import { BarwiseError } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceFrames, type Piece } from '../decoder/pieces.js';
import { pieceSource } from '../decoder/source.js';
import type { AudioWarning } from '../source.js';
import { damagedFrames, truncated } from '../warnings.js';
import { readInfoTag } from './infotag.js';
import { beforeTrailingTags } from '../trailing.js';
import { follows, frameRanges, walkFrames, type FrameWalk } from './walk.js';

/** Samples by which every MPEG Layer III decoder is late: hybrid filter bank and polyphase overlap (LAME technical FAQ). */
export const DECODER_DELAY = 529;
/** What most encoders put before the audio when the file does not say (the default of LAME since 3.9x). */
export const USUAL_ENCODER_DELAY = 576;
/** Frames of lead-in: the bit reservoir reaches back 511 bytes, that is ten frames at 8 kbit/s … one at 320. */
const LEAD_IN = 10;
/** Frames that may be missing against the tag before it is worth a word: encoders differ by one or two in counting. */
const COUNT_TOLERANCE = 2;
/** Bytes after the last frame that may be some tag of its own kind. */
const REST_TOLERANCE = 1 << 14;

/** Opens an MP3 file. @param start position after ID3v2 tags, near the first frame */
export async function openMp3(reader: ByteReader, file: string, start: number): Promise<Container> {
  const end = await beforeTrailingTags(reader, start);
  const walk = await walkFrames(reader, start, end);
  if (!walk) throw new BarwiseError('damaged', `${file} holds no whole MP3 frame: copy the file again.`, { file });
  const { first } = walk;
  if (first.layer !== 3) {
    const what = `${file} is MPEG audio of layer ${first.layer}, and only layer III (MP3) is read: convert it to FLAC.`;
    throw new BarwiseError('unsupported-format', what, { file });
  }
  const tag = readInfoTag(await reader.copy(walk.offsets[0], first.length), first);
  const from = tag ? 1 : 0;
  const base = walk.numbers[from] ?? 0;
  const count = walk.offsets.length > from ? walk.numbers[walk.numbers.length - 1] + 1 - base : 0;
  if (count === 0) throw new BarwiseError('damaged', `${file} holds no audio: copy the file again.`, { file });
  const { samples, sampleRate, channels } = first;
  const skip = (tag?.delay ?? USUAL_ENCODER_DELAY) + DECODER_DELAY;
  const there = count * samples - skip;
  // the encoder counts its padding from the end of the last frame, of which the decoder is late by its own delay
  const padding = Math.max(0, (tag?.padding ?? DECODER_DELAY) - DECODER_DELAY);
  const promised = tag?.frames ? tag.frames * samples - skip - padding : there;
  const frames = Math.max(0, Math.min(there, promised));
  const warnings: AudioWarning[] = [];
  if ((tag?.frames ?? count) - count > COUNT_TOLERANCE) {
    warnings.push(truncated(promised / sampleRate, frames / sampleRate));
  } else if (!tag?.frames && walk.cut) {
    warnings.push(truncated((there + samples) / sampleRate, there / sampleRate));
  } else if (!tag?.frames && walk.rest > REST_TOLERANCE) {
    warnings.push(damagedFrames(1, there / sampleRate, 0));
  }
  const list = { codec: 'mp3', sampleRate, channels, skip, frames, pieces: piecesOf(walk, from) } as const;
  return {
    codec: 'MP3',
    sampleRate,
    channels,
    frames,
    digestParts: frameRanges(walk),
    warnings,
    source: (options) => pieceSource(file, list, options),
  };
}

/** Cuts the stream into pieces of whole frames; a piece ends where frames were lost. */
function piecesOf(walk: FrameWalk, from: number): Piece[] {
  const { samples, channels } = walk.first;
  const most = Math.max(1, Math.floor(pieceFrames(channels) / samples));
  const pieces: Piece[] = [];
  for (let i = from, runStart = from; i < walk.offsets.length;) {
    if (!follows(walk, i)) runStart = i;
    let to = i + 1;
    while (to < walk.offsets.length && to - i < most && follows(walk, to)) to++;
    pieces.push(pieceOf(walk, walk.numbers[from], runStart, i, to));
    i = to;
  }
  return pieces;
}

/** Frames i … to − 1, with a lead-in that reaches back to the start of the run at most. */
function pieceOf(walk: FrameWalk, base: number, runStart: number, i: number, to: number): Piece {
  const { samples } = walk.first;
  const lead = Math.max(runStart, i - LEAD_IN);
  const offset = walk.offsets[lead];
  const length = walk.offsets[to - 1] + walk.lengths[to - 1] - offset;
  return {
    start: (walk.numbers[i] - base) * samples,
    frames: (to - i) * samples,
    leadIn: (i - lead) * samples,
    bytes: (reader) => reader.copy(offset, length),
    halves() {
      if (to - i < 2) return null;
      const middle = (i + to) >> 1;
      return [pieceOf(walk, base, runStart, i, middle), pieceOf(walk, base, runStart, middle, to)];
    },
  };
}
