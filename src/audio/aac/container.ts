import { BarwiseError } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceSource } from '../decoder/source.js';
import { framedPieces } from '../framed/pieces.js';
import { frameRanges, walkFrames, type FrameKind } from '../framed/walk.js';
import { beforeTrailingTags } from '../trailing.js';
import { truncated } from '../warnings.js';
import { AAC_FRAME, aacChannels, parseAdtsHeader, type AdtsHeader } from './adts.js';

/**
 * Priming when a file does not say: the transform's own overlap of one access unit, which every encoder has at least
 * (common practice, no source).
 */
export const USUAL_PRIMING = AAC_FRAME;
/** Access units of lead-in; the overlap reaches back by one. */
export const AAC_LEAD_IN = 2;

const ADTS: FrameKind<AdtsHeader> = {
  headerBytes: 7,
  parse: parseAdtsHeader,
  same: (a, b) => a.objectType === b.objectType && a.rateIndex === b.rateIndex && a.channelConfig === b.channelConfig,
};

/** Opens a bare AAC stream (ADTS). @param start near the first frame */
export async function openAdts(reader: ByteReader, file: string, start: number): Promise<Container> {
  const walk = await walkFrames(reader, ADTS, start, await beforeTrailingTags(reader, start));
  if (!walk) throw new BarwiseError('damaged', `${file} holds no whole AAC frame: copy the file again.`, { file });
  const { objectType, sampleRate, channelConfig } = walk.first;
  const channels = checkAac(file, objectType, channelConfig);
  const skip = USUAL_PRIMING;
  const count = walk.numbers[walk.numbers.length - 1] + 1;
  const frames = Math.max(0, count * AAC_FRAME - skip);
  const pieces = framedPieces(walk, { samples: AAC_FRAME, channels, leadIn: AAC_LEAD_IN }, 0);
  const list = { codec: 'aac', sampleRate, channels, skip, frames, pieces } as const;
  const more = (frames + AAC_FRAME) / sampleRate;
  return {
    codec: 'AAC',
    sampleRate,
    channels,
    frames,
    digestParts: frameRanges(walk),
    warnings: walk.cut ? [truncated(more, frames / sampleRate)] : [],
    source: (options) => pieceSource(file, list, options),
  };
}

/** Refuses what the decoders do not take. @returns the number of channels */
export function checkAac(file: string, objectType: number, channelConfig: number): number {
  const kind = { 1: 'AAC Main', 3: 'AAC SSR', 4: 'AAC LTP', 5: 'HE-AAC', 29: 'HE-AAC v2', 42: 'xHE-AAC' }[objectType];
  if (objectType !== 2) {
    const what = kind ?? `AAC of type ${objectType}`;
    throw new BarwiseError(
      'unsupported-format',
      `${file} is ${what}, and only AAC-LC is read: convert it to FLAC or AAC-LC.`,
      { file },
    );
  }
  if (channelConfig === 0) {
    throw new BarwiseError(
      'unsupported-format',
      `${file} is AAC with a channel layout of its own, which is not read: convert it to FLAC.`,
      { file },
    );
  }
  return aacChannels(channelConfig);
}
