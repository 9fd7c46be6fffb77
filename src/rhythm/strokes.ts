import type { Fraction } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { GridBar } from './grid.js';

/** A run of bars: first and last number, inclusive. */
export interface BarRun {
  readonly from: number;
  readonly to: number;
  /** Mean of what was measured over the run. */
  readonly mean: number;
}

/**
 * How much drumming each bar holds, against the track's own strong beats: the median over its beats of the strongest of
 * kick (below 150 Hz, on the beat) and hats (above 5 kHz, on the beat or half-way).
 */
export function drumming(f: BeatFeatures, bars: readonly GridBar[]): number[] {
  const curves = [f.onBeat[0], f.onBeat[1], f.onBeat[5], f.offBeat[5]].map((curve) => {
    const strong = quantile([...curve], 0.85) || 1;
    return curve.map((v) => v / strong);
  });
  return bars.map((bar) => {
    const beats = Array.from({ length: bar.beats }, (_, i) =>
      Math.max(...curves.map((c) => c[bar.firstBeat + i] ?? 0)),
    );
    return quantile(beats, 0.5);
  });
}

/** Runs of bars for which something holds, at least `least` long. */
export function runs(
  bars: readonly GridBar[],
  is: (i: number) => boolean,
  value: (i: number) => number,
  least: number,
): BarRun[] {
  const out: BarRun[] = [];
  for (let i = 0; i < bars.length;) {
    let j = i;
    while (j < bars.length && is(j)) j++;
    if (j - i >= least) {
      let sum = 0;
      for (let k = i; k < j; k++) sum += value(k);
      out.push({ from: bars[i].number, to: bars[j - 1].number, mean: sum / (j - i) });
    }
    i = Math.max(j, i + 1);
  }
  return out;
}

/** The value below which a share of the values lies; 0 of none. */
export function quantile(values: readonly number[], share: Fraction): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
