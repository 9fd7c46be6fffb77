import { GROUPS, STEPS_PER_BEAT, type StepTable } from './steps.js';

/** Log power of some groups over some steps. */
function stepLevel(steps: StepTable, from: number, to: number, first: number, last: number): number {
  let s = 0;
  for (let r = Math.max(from, 0); r < Math.min(to, steps.rows); r++)
    for (let g = first; g < last; g++) s += steps.power[r * GROUPS + g];
  return Math.log10(1e-3 + s / Math.max(to - from, 1) / (last - first));
}

/** First beat of each bar b against the first beats of the four bars on either side: a crash, an impact. */
export function accent(steps: StepTable, bars: number, first: number, last: number): Float64Array {
  const one = new Float64Array(bars);
  for (let b = 0; b < bars; b++) {
    const from = steps.barRow[b];
    one[b] = stepLevel(steps, from, from + STEPS_PER_BEAT, first, last);
  }
  const out = new Float64Array(bars);
  for (let b = 0; b < bars; b++) {
    const around = one.slice(Math.max(0, b - 4), b + 5).sort();
    out[b] = one[b] - around[around.length >> 1];
  }
  return out;
}

/** Last beat before b against the three bars before that: breath before the one is negative. */
export function dropOut(steps: StepTable, bars: number, first: number, last: number): Float64Array {
  const out = new Float64Array(bars);
  for (let b = 2; b < bars; b++) {
    const end = steps.barRow[b];
    const beat = stepLevel(steps, end - STEPS_PER_BEAT, end, first, last);
    out[b] = beat - stepLevel(steps, steps.barRow[Math.max(0, b - 4)], steps.barRow[b - 1], first, last);
  }
  return out;
}
