import type { Frames, Hertz, Seconds } from '../units/index.js';

/** Some consecutive sample frames, one array a channel, all of one length; samples are in −1…1 but may exceed it. */
export type AudioBlock = readonly Float32Array[];

/**
 * Decoded audio that is read block by block, so that two hours need no more memory than six minutes. The first sample
 * is the first one after the encoder delay.
 */
export interface AudioSource {
  readonly sampleRate: Hertz;
  readonly channels: number;
  /** Number of frames that will come, `null` when only the end will tell. */
  readonly frames: Frames | null;
  /**
   * The blocks in order, once. A block is good until the next is asked for: its arrays may be used again.
   * Throws BarwiseError `damaged` or `decoder-failed`.
   */
  blocks(): AsyncIterable<AudioBlock>;
  /** Frees the decoder; safe to call twice and before the end. */
  close(): Promise<void>;
}

/** The tags a person would look for; everything else stays in the file. */
export interface Tags {
  readonly title: string | null;
  readonly artist: string | null;
  readonly album: string | null;
  readonly year: number | null;
  readonly genre: string | null;
  readonly comment: string | null;
}

/** What is known of a file before its samples are read. */
export interface AudioFileInfo {
  readonly file: string;
  /** SHA-256 (hex) of the encoded audio without tags: editing tags or renaming keeps it. */
  readonly audioDigest: string;
  readonly durationSeconds: Seconds;
  readonly sampleRate: Hertz;
  readonly channels: number;
  readonly codec: string;
  readonly tags: Tags;
}

/** A warning about a file that could still be read, e.g. one that ends early. @public */
export interface AudioWarning {
  readonly code: 'truncated' | 'damaged-frames' | 'slow-decoder' | 'clipped' | 'inverted-channel' | 'unusual-samples';
  /** One sentence. */
  readonly message: string;
}
