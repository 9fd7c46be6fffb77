import type { AudioBlock } from './source.js';

/** −3 dB, the share of centre and surround in left and right. */
const M3DB = Math.SQRT1_2;

/**
 * What each channel gives to left and right, by number of channels, in the order of WAV and FLAC files:
 * 3: L R C · 4: L R Ls Rs · 5: L R C Ls Rs · 6: L R C LFE Ls Rs.
 * Source: Recommendation ITU-R BS.775, annex 4 (3/2 to 2/0); the low-frequency channel is left out there as well.
 */
const SHARES: Record<number, readonly (readonly [number, number])[]> = {
  3: [[1, 0], [0, 1], [M3DB, M3DB]], // prettier-ignore
  4: [[1, 0], [0, 1], [M3DB, 0], [0, M3DB]], // prettier-ignore
  5: [[1, 0], [0, 1], [M3DB, M3DB], [M3DB, 0], [0, M3DB]], // prettier-ignore
  6: [[1, 0], [0, 1], [M3DB, M3DB], [0, 0], [M3DB, 0], [0, M3DB]], // prettier-ignore
};

/**
 * Left and right of a block of one to six channels. Mono gives the same array twice, stereo comes back as it is; the sum
 * of more channels may exceed full scale and is not scaled down.
 */
export function toStereo(block: AudioBlock): readonly [Float32Array, Float32Array] {
  const shares = SHARES[block.length];
  if (!shares) return [block[0], block[1] ?? block[0]];
  const length = block[0].length;
  const left = new Float32Array(length);
  const right = new Float32Array(length);
  block.forEach((samples, c) => {
    const [l, r] = shares[c];
    if (l === 0 && r === 0) return;
    for (let i = 0; i < length; i++) {
      left[i] += l * samples[i];
      right[i] += r * samples[i];
    }
  });
  return [left, right];
}
