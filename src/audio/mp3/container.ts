import { BarwiseError } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceSource } from '../decoder/source.js';
import { framedPieces } from '../framed/pieces.js';
import { frameRanges, walkFrames, type FrameKind } from '../framed/walk.js';
import type { AudioWarning } from '../source.js';
import { damagedFrames, endsEarly, truncated } from '../warnings.js';
import { parseMpegHeader, sameStream, type MpegHeader } from './header.js';
import { readInfoTag } from './infotag.js';
import { restoreNumbers } from './restore.js';
import { beforeTrailingTags } from '../trailing.js';

/** Samples by which every MPEG Layer III decoder is late: hybrid filter bank and polyphase overlap (LAME technical FAQ). */
export const DECODER_DELAY = 529;
/** What most encoders put before the audio when the file does not say (the default of LAME since 3.9x). */
export const USUAL_ENCODER_DELAY = 576;
/** Frames of lead-in: the bit reservoir reaches back 511 bytes, that is ten frames at 8 kbit/s … one at 320. */
const LEAD_IN = 10;
/** Encoders differ by one or two in counting their frames. */
const COUNT_TOLERANCE = 2;
/** Bytes after the last frame that may be some tag of its own kind. */
const REST_TOLERANCE = 1 << 14;

const MPEG: FrameKind<MpegHeader> = {
  headerBytes: 4,
  parse: parseMpegHeader,
  same: sameStream,
  silent: (frame, header) => readInfoTag(frame, header) !== null,
};

/** Opens an MP3 file. @param start position after ID3v2 tags, near the first frame */
export async function openMp3(reader: ByteReader, file: string, start: number): Promise<Container> {
  const end = await beforeTrailingTags(reader, start);
  const walked = await walkFrames(reader, MPEG, start, end);
  if (!walked) throw new BarwiseError('damaged', `${file} holds no whole MP3 frame: copy the file again.`, { file });
  const { first } = walked;
  if (first.layer !== 3) {
    const what = `${file} is MPEG audio of layer ${first.layer}, and only layer III (MP3) is read: convert it to FLAC.`;
    throw new BarwiseError('unsupported-format', what, { file });
  }
  const tag = readInfoTag(await reader.copy(walked.offsets[0], first.length), first);
  const from = tag ? 1 : 0;
  const walk = restoreNumbers(walked, from, tag?.frames ?? null);
  const base = walk.numbers[from] ?? 0;
  const count = walk.offsets.length > from ? walk.numbers[walk.numbers.length - 1] + 1 - base : 0;
  if (count === 0) throw new BarwiseError('damaged', `${file} holds no audio: copy the file again.`, { file });
  const { samples, sampleRate, channels } = first;
  const skip = (tag?.delay ?? USUAL_ENCODER_DELAY) + DECODER_DELAY;
  const there = count * samples - skip;
  // the encoder counts its padding from the end of the last frame, of which the decoder is late by its own delay
  const padding = Math.max(0, (tag?.padding ?? DECODER_DELAY) - DECODER_DELAY);
  // more frames than the tag counts: another file was joined on, and the padding is that of neither end
  const counted = tag?.frames && count <= tag.frames + COUNT_TOLERANCE ? tag.frames : null;
  const promised = counted ? counted * samples - skip - padding : there;
  const frames = Math.max(0, Math.min(there, promised));
  const warnings: AudioWarning[] = [];
  if (counted) {
    warnings.push(...endsEarly(promised, frames, sampleRate));
  } else if (walk.cut) {
    warnings.push(truncated((there + samples) / sampleRate, there / sampleRate));
  } else if (walk.rest > REST_TOLERANCE) {
    warnings.push(damagedFrames(1, there / sampleRate, 0));
  }
  const pieces = framedPieces(walk, { samples, channels, leadIn: LEAD_IN }, from);
  const list = { codec: 'mp3', sampleRate, channels, skip, frames, pieces } as const;
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
