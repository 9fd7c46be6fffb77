import type { Hertz, Seconds } from '../../units/index.js';

/** The rate at which everything is rendered. */
export const RATE: Hertz = 44100;

/** A short sound rendered once and mixed many times; a mono sound has one array in both places. */
export interface Shot {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

export function framesOf(duration: Seconds): number {
  return Math.max(1, Math.round(duration * RATE));
}

/** A mono sound from a function of the frame number. */
export function monoShot(duration: Seconds, sample: (i: number) => number): Shot {
  const values = new Float32Array(framesOf(duration));
  for (let i = 0; i < values.length; i++) values[i] = sample(i);
  fadeEnd(values);
  return { left: values, right: values };
}

/** A stereo sound from two functions of the frame number. */
export function stereoShot(duration: Seconds, left: (i: number) => number, right: (i: number) => number): Shot {
  return { left: monoShot(duration, left).left, right: monoShot(duration, right).left };
}

/** Fades the last 5 ms so that a sound never ends in a step. */
export function fadeEnd(values: Float32Array): void {
  const fade = Math.min(values.length, framesOf(0.005));
  for (let i = 0; i < fade; i++) values[values.length - 1 - i] *= i / fade;
}

/** Scales a sound so that its largest sample is `peak`. */
export function toPeak(shot: Shot, peak: number): Shot {
  let largest = 1e-9;
  for (const side of [shot.left, shot.right]) for (const value of side) largest = Math.max(largest, Math.abs(value));
  const sides = shot.left === shot.right ? [shot.left] : [shot.left, shot.right];
  for (const side of sides) for (let i = 0; i < side.length; i++) side[i] *= peak / largest;
  return shot;
}

/** The sound backwards. */
export function reversed(shot: Shot): Shot {
  return { left: shot.left.slice().reverse(), right: shot.right.slice().reverse() };
}

/** Frequency of a MIDI note number, A4 = 69 = 440 Hz. @example noteFrequency(57) // 220 */
export function noteFrequency(note: number): Hertz {
  return 440 * 2 ** ((note - 69) / 12);
}
