import type { Frames } from '../../units/index.js';
import { saturate } from '../sound/filters.js';
import { RATE } from '../sound/shot.js';
import type { Stereo } from './feed.js';

/** Largest sample that leaves the master: −1.5 dBFS, so that neither the wave between samples nor a lossy codec clips. */
export const CEILING = 0.84;
/** Root mean square to which the loud parts are brought before the saturation. */
const LOUD_RMS = 0.34;
const LIMITER_BLOCK: Frames = 64;
const LIMITER_RELEASE = 0.09;

/** Root mean square of the loud parts: the level that nine tenths of all 0.4 s windows stay under. */
function loudLevel({ left, right }: Stereo): number {
  const size = Math.round(0.4 * RATE);
  const levels: number[] = [];
  for (let start = 0; start + size <= left.length; start += size) {
    let sum = 0;
    for (let i = start; i < start + size; i += 2) sum += left[i] * left[i] + right[i] * right[i];
    levels.push(Math.sqrt(sum / size));
  }
  levels.sort((a, b) => a - b);
  return levels.length === 0 ? 0 : levels[Math.floor(levels.length * 0.9)];
}

/** The gain at each block edge so that no block leaves the ceiling, with a release that is not heard as pumping. */
function limiterGains({ left, right }: Stereo): Float32Array {
  const blocks = Math.ceil(left.length / LIMITER_BLOCK);
  const needed = new Float32Array(blocks);
  for (let b = 0; b < blocks; b++) {
    let peak = 1e-9;
    const end = Math.min(left.length, (b + 1) * LIMITER_BLOCK);
    for (let i = b * LIMITER_BLOCK; i < end; i++) {
      const a = Math.abs(left[i]);
      const c = Math.abs(right[i]);
      if (a > peak) peak = a;
      if (c > peak) peak = c;
    }
    needed[b] = Math.min(1, CEILING / peak);
  }
  const edges = new Float32Array(blocks + 1);
  const release = Math.exp(-LIMITER_BLOCK / (LIMITER_RELEASE * RATE));
  let gain = 1;
  for (let b = 0; b <= blocks; b++) {
    const limit = Math.min(needed[Math.max(0, b - 1)], needed[Math.min(blocks - 1, b)]);
    gain = Math.min(limit, 1 - (1 - gain) * release);
    edges[b] = gain;
  }
  // Looks ahead: the gain has come down evenly over the eight blocks (12 ms) before it is needed.
  for (let b = blocks - 1; b >= 0; b--) edges[b] = Math.min(edges[b], edges[b + 1] + 0.125);
  return edges;
}

/** Brings the mix to the density of a club record: level, saturation, limiter. Works in place. */
export function finish(master: Stereo, drive: number): void {
  const level = loudLevel(master);
  if (level === 0) return;
  const { left, right } = master;
  const gain = (LOUD_RMS * drive) / level;
  for (let i = 0; i < left.length; i++) {
    left[i] = saturate(gain * left[i]);
    right[i] = saturate(gain * right[i]);
  }
  const edges = limiterGains(master);
  for (let b = 0, start = 0; start < left.length; b++, start += LIMITER_BLOCK) {
    const end = Math.min(left.length, start + LIMITER_BLOCK);
    const slope = (edges[b + 1] - edges[b]) / LIMITER_BLOCK;
    for (let i = start, g = edges[b]; i < end; i++, g += slope) {
      left[i] *= g;
      right[i] *= g;
    }
  }
}
