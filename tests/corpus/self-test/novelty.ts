import type { FrontEnd } from '../../../src/signal/index.js';

/** Half the side of the checkerboard in bars. */
const REACH = 8;
/** A peak counts that is this many standard deviations above the mean. */
const LEAST = 0.5;

/**
 * Plain novelty, to be beaten: mean band levels of every bar, their self-similarity, a Gaussian checkerboard along its
 * diagonal, peaks. Foote 2000, "Automatic audio segmentation using a measure of audio novelty".
 *
 * @param downbeats seconds
 * @returns indices of downbeats at which something new starts, the first included
 */
export function noveltyStarts(frontEnd: FrontEnd, downbeats: readonly number[]): number[] {
  const bars = downbeats.length;
  const vectors = levels(frontEnd, downbeats);
  const similar = (a: number, b: number) => vectors[a].reduce((sum, v, i) => sum + v * vectors[b][i], 0);
  const novelty = Array.from({ length: bars }, (_, bar) => {
    let sum = 0;
    for (let i = -REACH; i < REACH; i++) {
      for (let j = -REACH; j < REACH; j++) {
        const [a, b] = [bar + i, bar + j];
        if (a < 0 || b < 0 || a >= bars || b >= bars) continue;
        const weight = Math.exp(-2 * (((i + 0.5) / REACH) ** 2 + ((j + 0.5) / REACH) ** 2));
        sum += weight * (i < 0 === j < 0 ? 1 : -1) * similar(a, b);
      }
    }
    return sum;
  });
  const mean = novelty.reduce((a, b) => a + b, 0) / bars;
  const spread = Math.sqrt(novelty.reduce((a, b) => a + (b - mean) ** 2, 0) / bars);
  const isPeak = (bar: number) => novelty[bar] >= Math.max(...novelty.slice(Math.max(0, bar - 2), bar + 3));
  return downbeats.flatMap((_, bar) =>
    bar === 0 || (bar > 1 && bar < bars - 1 && isPeak(bar) && novelty[bar] > mean + LEAST * spread) ? [bar] : [],
  );
}

/** Band levels of each bar in decibels, each band without its mean, each bar of length 1. */
function levels({ bands }: FrontEnd, downbeats: readonly number[]): number[][] {
  const rows = downbeats.map((start, bar) => {
    const at = (time: number) => Math.min(bands.rows, Math.max(0, Math.round((time - bands.start) * bands.rate)));
    const [from, to] = [at(start), at(downbeats[bar + 1] ?? start + 2)];
    return Array.from({ length: bands.columns }, (_, c) => {
      let sum = 0;
      for (let r = from; r < to; r++) sum += bands.values[r * bands.columns + c];
      return 10 * Math.log10(sum / Math.max(1, to - from) + 1e-9);
    });
  });
  const means = rows[0].map((_, c) => rows.reduce((sum, row) => sum + row[c], 0) / rows.length);
  return rows.map((row) => {
    const moved = row.map((v, c) => v - means[c]);
    const length = Math.sqrt(moved.reduce((sum, v) => sum + v * v, 0)) || 1;
    return moved.map((v) => v / length);
  });
}
