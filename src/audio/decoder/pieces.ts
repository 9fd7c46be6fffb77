import type { Frames, Hertz } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { Codec } from './client.js';

/**
 * A stretch of a compressed file that can be decoded on its own, about ten seconds long: memory stays bounded, and a
 * damaged place cannot shift what comes after it.
 */
export interface Piece {
  /** Where its first frame belongs, in frames of the untrimmed audio. */
  readonly start: Frames;
  /** Frames it has to give. */
  readonly frames: Frames;
  /** Frames that are decoded before the first one, to bring the decoder into its state. */
  readonly leadIn: Frames;
  /** The bytes of lead-in and piece, as a whole file of the codec. */
  bytes(reader: ByteReader): Promise<Uint8Array>;
  /** The same stretch in two, for finding out which part is damaged; `null` when it is too short. */
  halves(): readonly [Piece, Piece] | null;
}

/** What a container's parser makes of a compressed file. */
export interface PieceList {
  readonly codec: Codec;
  readonly sampleRate: Hertz;
  readonly channels: number;
  /** In order and not overlapping; what lies between two is lost and becomes silence. */
  readonly pieces: readonly Piece[];
  /** Frames to leave out at the start: the delay of encoder and decoder. */
  readonly skip: Frames;
  /** Frames to give after that. */
  readonly frames: Frames;
}

/** Frames of a piece: about twelve seconds at 44.1 kHz, less at more channels. */
export function pieceFrames(channels: number): Frames {
  return (1 << 20) / Math.max(2, channels);
}
