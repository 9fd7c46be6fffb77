/** A time or a duration in seconds. Times count from the first sample after the encoder delay is trimmed. @public */
export type Seconds = number;

/** A frequency in cycles a second. @public */
export type Hertz = number;

/** A tempo in beats a minute. @public */
export type Bpm = number;

/** A level or a level difference in decibels. @public */
export type Decibels = number;

/** A programme loudness in LUFS (ITU-R BS.1770). @public */
export type Lufs = number;

/** A loudness difference in loudness units. @public */
export type LoudnessUnits = number;

/** A number of a bar: 1 is the first whole bar of the grid, 0 only a partial bar before it. @public */
export type BarNumber = number;

/** A count of sample frames (one sample of every channel). @public */
export type Frames = number;

/** A number from 0 to 1: a confidence, a weight, a share. @public */
export type Fraction = number;

/** How sure an answer is, from 0 to 1; `null` where it cannot be judged. @public */
export type Confidence = Fraction | null;

/** Rounds a time to the 0.1 ms to which times are stored. @public */
export function toStoredTime(time: Seconds): Seconds {
  return Math.round(time * 1e4) / 1e4;
}
