import type { LoudnessUnits, Lufs } from '../units/index.js';

/** Offset of ITU-R BS.1770-4, formula 2: a 997 Hz sine at 0 dBFS in one front channel reads −3.01 LKFS. */
const OFFSET = -0.691;
/** Absolute gate in LUFS, ITU-R BS.1770-4. */
const ABSOLUTE_GATE = -70;
/** Relative gate of the integrated loudness in LU, ITU-R BS.1770-4. */
const RELATIVE_GATE = -10;
/** Relative gate of the loudness range in LU, and the percentiles it lies between, EBU Tech 3342. */
const RANGE_GATE = -20;
const RANGE_PERCENTILES = [0.1, 0.95] as const;

/** Loudness of a weighted mean square. */
export function loudness(power: number): Lufs {
  return OFFSET + 10 * Math.log10(power);
}

function power(lufs: Lufs): number {
  return 10 ** ((lufs - OFFSET) / 10);
}

/** Integrated loudness from the powers of overlapping 400 ms blocks; `null` when none passes the absolute gate. */
export function gatedLoudness(blocks: Float64Array): Lufs | null {
  const heard = meanAbove(blocks, power(ABSOLUTE_GATE));
  if (heard === null) return null;
  const gate = Math.max(power(ABSOLUTE_GATE), heard * 10 ** (RELATIVE_GATE / 10));
  const mean = meanAbove(blocks, gate);
  return mean === null ? null : loudness(mean);
}

/** Loudness range from the powers of overlapping 3 s windows; `null` when none passes the absolute gate. */
export function gatedRange(windows: Float64Array): LoudnessUnits | null {
  const heard = meanAbove(windows, power(ABSOLUTE_GATE));
  if (heard === null) return null;
  const gate = Math.max(power(ABSOLUTE_GATE), heard * 10 ** (RANGE_GATE / 10));
  const kept = windows.filter((p) => p >= gate).sort();
  const [low, high] = RANGE_PERCENTILES.map((q) => kept[Math.round((kept.length - 1) * q)]);
  return loudness(high) - loudness(low);
}

function meanAbove(values: Float64Array, gate: number): number | null {
  let sum = 0;
  let count = 0;
  for (const v of values) {
    if (v < gate) continue;
    sum += v;
    count++;
  }
  return count === 0 ? null : sum / count;
}
