import type { FrontEnd } from '../signal/index.js';
import type { Decibels, Fraction } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { GridBar } from './grid.js';
import { quantile } from './strokes.js';

/** At most so many bars at the end are taken for an echo. */
const MOST = 3;
/** Onsets of an echo, against the track's usual bar. */
const QUIET: Fraction = 0.25;
/** An echo falls by this much from the first half of its bar to the second, or lies this far below the track. */
const FALLS: Decibels = 6;
const FAR_BELOW: Decibels = 30;

/**
 * How many bars at the end hold nothing but the ring-out of what came before: hardly anything starts in them, and they die
 * away. Nobody counts them.
 */
export function ringOutBars(frontEnd: FrontEnd, f: BeatFeatures, bars: readonly GridBar[]): number {
  const curves = [...f.onBeat, ...f.offBeat];
  const starting = bars.map(({ firstBeat, beats }) => {
    let sum = 0;
    for (let b = firstBeat; b < firstBeat + beats; b++) {
      for (const curve of curves) sum += curve[b] ?? 0;
    }
    return sum / beats;
  });
  const usual = quantile(starting, 0.5);
  let count = 0;
  while (count < MOST && count + 8 < bars.length) {
    const i = bars.length - 1 - count;
    const { start, end } = bars[i];
    const middle = (start + end) / 2;
    const [first, second] = [level(frontEnd, start, middle), level(frontEnd, middle, end)];
    const dies = first - second >= FALLS || first <= 10 * Math.log10(frontEnd.meanPower) - FAR_BELOW;
    if (starting[i] > QUIET * usual || !dies) break;
    count++;
  }
  return count;
}

/** Mean power between two times in decibels. */
function level({ stereo }: FrontEnd, from: number, to: number): Decibels {
  const first = Math.max(0, Math.round((from - stereo.start) * stereo.rate));
  const last = Math.min(stereo.rows, Math.max(first + 1, Math.round((to - stereo.start) * stereo.rate)));
  let sum = 0;
  for (let r = first; r < last; r++) sum += stereo.values[2 * r] + stereo.values[2 * r + 1];
  return 10 * Math.log10(sum / Math.max(last - first, 1) + 1e-20);
}
