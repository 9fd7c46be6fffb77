import type { Frames, Seconds } from '../../units/index.js';
import { RATE } from '../sound/shot.js';
import type { Stereo } from './feed.js';

/** Lengths of the eight delay lines in frames at half the rate: primes, so that their echoes don't fall together. */
const LENGTHS = [601, 691, 773, 839, 953, 1039, 1151, 1259] as const;
const LINES = LENGTHS.length;
/** Room for each line in the memory that all share: a power of two, so that places wrap by masking. */
const LINE_ROOM = 2048;
const HALF_RATE = RATE / 2;
const PREDELAY = 260;
/** Keeps the lines above the numbers that are too small for the processor to be quick with. */
const FLOOR = 1e-18;

/** Takes a chunk of the send (mono, half the rate) and adds the reverberation to the master from `start` on. */
export type Reverb = (send: Float32Array, master: Stereo, start: Frames, length: Frames) => void;

/** Reverberation by a feedback delay network (Jot & Chaigne 1991) with a Householder mixing matrix. */
export function createReverb(time: Seconds): Reverb {
  const lines = new Float32Array(LINES * LINE_ROOM);
  const gains = Float64Array.from(LENGTHS, (length) => 10 ** ((-3 * length) / (HALF_RATE * time)));
  const dull = new Float64Array(LINES);
  const out = new Float64Array(LINES);
  const early = new Float32Array(PREDELAY);
  let earlyPlace = 0;
  let place = 0;
  let low = 0;
  let started = false;
  let lastLeft = 0;
  let lastRight = 0;
  return (send, master, start, length) => {
    const { left, right } = master;
    started ||= send.some((value) => value !== 0);
    if (!started) return;
    for (let k = 0; 2 * k + 1 < length; k++) {
      const raw = early[earlyPlace] + FLOOR;
      early[earlyPlace] = send[k];
      if (++earlyPlace === PREDELAY) earlyPlace = 0;
      low += 0.035 * (raw - low);
      const input = raw - low + FLOOR;
      let sum = 0;
      for (let n = 0; n < LINES; n++) {
        dull[n] += 0.62 * (lines[n * LINE_ROOM + ((place - LENGTHS[n]) & (LINE_ROOM - 1))] - dull[n]);
        out[n] = dull[n] * gains[n];
        sum += out[n];
      }
      const shared = (2 / LINES) * sum;
      for (let n = 0; n < LINES; n++) {
        lines[n * LINE_ROOM + place] = input + out[n] - shared;
      }
      place = (place + 1) & (LINE_ROOM - 1);
      const wetLeft = out[0] - out[2] + out[4] - out[6];
      const wetRight = out[1] - out[3] + out[5] - out[7];
      const i = start + 2 * k;
      left[i] += 0.5 * (lastLeft + wetLeft);
      right[i] += 0.5 * (lastRight + wetRight);
      left[i + 1] += wetLeft;
      right[i + 1] += wetRight;
      lastLeft = wetLeft;
      lastRight = wetRight;
    }
  };
}
