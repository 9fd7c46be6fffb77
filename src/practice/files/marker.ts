import type { Seconds } from '../../units/index.js';

/** A named place in practice audio: a cue point or chapter. It reaches to the next one. @experimental */
export interface Marker {
  /** Seconds from the start of the sound. */
  readonly time: Seconds;
  readonly label: string;
}

/** Practice audio with everything that goes into its file. @experimental */
export interface PracticeSound {
  /** Samples of the left channel, 44.1 kHz. */
  readonly left: Float32Array;
  /** Samples of the right channel, as many. */
  readonly right: Float32Array;
  readonly title: string;
  /** Goes into the file's comment; the caution about loud sound is in it. */
  readonly comment: string;
  readonly markers: readonly Marker[];
}

/**
 * The caution in every text and file. WHO–ITU H.870, "Guidelines for safe listening devices and systems": 80 dB(A) for 40
 * hours a week (from memory).
 * @experimental
 */
export const HEARING_CAUTION =
  'Mind your hearing: turn headphones and monitors down before you start, raise them slowly, and take breaks. ' +
  'WHO and ITU take 80 dB(A) for 40 hours a week as the limit for adults; your local rules come first, and a qualified ' +
  'person should look at ringing or dull ears.';
