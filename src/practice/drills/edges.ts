import type { Seconds } from '../../units/index.js';
import { RATE, type Stereo } from '../sound/stereo.js';

const FADE: Seconds = 0.01;

/** Softens where a stretch of samples begins and ends, so that it does not click. */
export function fadeEdges(sound: Stereo, from: number, to: number): void {
  const length = Math.min(Math.round(FADE * RATE), Math.floor((to - from) / 2));
  for (let i = 0; i < length; i++) {
    const level = i / length;
    for (const samples of [sound.left, sound.right]) {
      if (from > 0) samples[from + i] *= level;
      samples[to - 1 - i] *= level;
    }
  }
}
