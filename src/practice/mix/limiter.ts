import { RATE, type Stereo } from '../sound/stereo.js';

/** How far ahead of a peak the level begins to go down, and how long behind it comes back: 5 ms. */
const REACH = Math.round(0.005 * RATE);

/**
 * Turns both channels down around peaks, in place, so that no sample exceeds a ceiling: the least gain within reach, evened
 * out over the same reach, so that it never jumps and is down in time.
 * @param ceiling largest sample allowed, over 0
 */
export function limit({ left, right }: Stereo, ceiling: number): void {
  const frames = left.length;
  const width = 2 * REACH + 1;
  const least = slidingLeast((i) => {
    const peak = Math.max(Math.abs(left[i]), Math.abs(right[i]));
    return peak > ceiling ? ceiling / peak : 1;
  }, frames);
  let sum = 0;
  const at = (i: number) => least[Math.min(Math.max(i, 0), frames - 1)];
  for (let k = -REACH; k <= REACH; k++) sum += at(k);
  for (let i = 0; i < frames; i++) {
    const gain = Math.min(1, sum / width);
    if (gain < 1 - 1e-9) {
      left[i] *= gain;
      right[i] *= gain;
    }
    sum += at(i + REACH + 1) - at(i - REACH);
  }
}

/** The least value within reach of every frame, by a queue that only rises (Lemire 2006). */
function slidingLeast(value: (i: number) => number, frames: number): Float32Array {
  const out = new Float32Array(frames);
  const values = Float32Array.from({ length: frames }, (_, i) => value(i));
  const queue = new Int32Array(frames);
  let [head, tail] = [0, 0];
  for (let i = 0; i < frames + REACH; i++) {
    if (i < frames) {
      while (tail > head && values[queue[tail - 1]] >= values[i]) tail--;
      queue[tail++] = i;
    }
    const centre = i - REACH;
    if (centre < 0) continue;
    while (queue[head] < centre - REACH) head++;
    out[centre] = values[queue[head]];
  }
  return out;
}
