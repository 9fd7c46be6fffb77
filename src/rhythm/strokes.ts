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

/** Below this share of a usual stroke a beat holds no drum. */
const SILENT: Fraction = 0.15;

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

/** Runs of at least `least` whole bars without drums. */
export function beatlessRuns(f: BeatFeatures, bars: readonly GridBar[], least: number): BarRun[] {
  const strength = drumming(f, bars);
  return runs(
    bars,
    (i) => strength[i] < SILENT,
    (i) => strength[i],
    least,
  );
}

/**
 * Half-time: the snare's band is stronger on the third beat than on the second and fourth by this log ratio, the kick's on
 * the first. The planted passages of three synthetic tracks read 0.66 to 1.9, the rest of them and of the dance songs below 0.3
 * but for stretches of 26 to 35 bars in two songs.
 */
const HALF_TIME = 0.4;
/** Strokes weaker than this are no evidence. */
const STROKE = 0.5;
/** A fill or two do not end the feel: the median of so many bars decides. */
const BARS_HEARD = 9;

/** Runs of bars whose snare falls on the third beat, as if the tempo were half; `mean` is the ratio of the strokes. */
export function halfTimeRuns(f: BeatFeatures, bars: readonly GridBar[], least: number): BarRun[] {
  const at = (curve: Float64Array, b: number) => curve[b] ?? 0;
  const heard = bars.map(({ firstBeat: b, beats }) => {
    if (beats !== 4) return { ratio: 0, kicked: 0 };
    const snare = (k: number) => at(f.onBeat[3], b + k) + at(f.onBeat[4], b + k);
    const kick = (k: number) => at(f.onBeat[0], b + k) + at(f.onBeat[1], b + k);
    const kicked = kick(0) > STROKE && kick(0) > 1.5 * Math.max(kick(1), kick(3));
    return {
      ratio: Math.log((snare(2) + STROKE) / ((snare(1) + snare(3)) / 2 + STROKE)),
      kicked: kicked ? 1 : 0,
    };
  });
  const median = (i: number, value: (h: { ratio: number; kicked: number }) => number) => {
    const half = (BARS_HEARD - 1) / 2;
    return quantile(heard.slice(Math.max(0, i - half), i + half + 1).map(value), 0.5);
  };
  return runs(
    bars,
    (i) => median(i, (h) => h.ratio) >= HALF_TIME && median(i, (h) => h.kicked) > 0,
    (i) => Math.exp(heard[i].ratio),
    least,
  );
}

function runs(
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
