import type { ByteRange } from '../bytes.js';
import type { AudioWarning } from '../source.js';
import type { Frames, Hertz } from '../../units/index.js';

/** How one sample is stored. */
export interface SampleFormat {
  readonly kind: 'unsigned' | 'integer' | 'float';
  readonly bytes: 1 | 2 | 3 | 4 | 8;
  readonly littleEndian: boolean;
}

/** Where the samples of an uncompressed file are and how they are stored. */
export interface PcmLayout {
  readonly codec: string;
  readonly sampleRate: Hertz;
  readonly channels: number;
  readonly format: SampleFormat;
  readonly frames: Frames;
  /** Byte position of the first frame. */
  readonly offset: number;
  /** What the digest covers beside the samples: the bytes that say how to read them. */
  readonly configuration: Uint8Array;
  readonly warnings: readonly AudioWarning[];
}

/** Bytes of one frame. */
export function frameBytes(layout: Pick<PcmLayout, 'channels' | 'format'>): number {
  return layout.channels * layout.format.bytes;
}

/** The samples' stretch of the file. */
export function sampleRange(layout: PcmLayout): ByteRange {
  return { offset: layout.offset, length: layout.frames * frameBytes(layout) };
}
