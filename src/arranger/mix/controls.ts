import type { Frames, Hertz } from '../../units/index.js';
import { timeOfBeat } from '../clock.js';
import { RATE } from '../sound/shot.js';
import type { Timeline } from '../timeline.js';

/** Frames between two values of a control curve. */
export const CONTROL_STEP: Frames = 64;

/** The filter corner for a brightness from 0 to 1: 220 Hz to 18 kHz, evenly by ear. */
function cornerOf(brightness: number): Hertz {
  return 220 * 82 ** brightness;
}

/** The corner of the filter over the harmony, gliding through each phrase as its plan says. */
export function cornerCurve(timeline: Timeline, frames: Frames): Float32Array {
  const curve = new Float32Array(Math.ceil(frames / CONTROL_STEP) + 1).fill(cornerOf(0.5));
  timeline.phrases.forEach(({ plan, startBar }, i) => {
    const next = timeline.phrases[i + 1];
    const beat = timeline.bars[startBar - 1].firstBeat;
    const endBeat = next ? timeline.bars[next.startBar - 1].firstBeat : timeline.times.length - 1;
    const from = (timeOfBeat(timeline.times, beat) * RATE) / CONTROL_STEP;
    const to = next ? (timeOfBeat(timeline.times, endBeat) * RATE) / CONTROL_STEP : curve.length;
    for (let k = Math.max(0, Math.floor(from)); k < Math.min(curve.length, to); k++) {
      const way = (k - from) / (to - from);
      curve[k] = cornerOf(plan.brightness[0] + (plan.brightness[1] - plan.brightness[0]) * way);
    }
  });
  return curve;
}

/** How far the music ducks under the kick: 1 at a kick, back to 0 within `recovery` frames. */
export function duckCurve(kicks: readonly Frames[], recovery: Frames, frames: Frames): Float32Array {
  const curve = new Float32Array(Math.ceil(frames / CONTROL_STEP) + 1);
  for (const kick of kicks) {
    const first = Math.floor(kick / CONTROL_STEP);
    const steps = Math.ceil(recovery / CONTROL_STEP);
    for (let k = 0; k < steps && first + k < curve.length; k++) {
      const depth = (1 - k / steps) ** 1.5;
      if (depth > curve[first + k]) curve[first + k] = depth;
    }
  }
  return curve;
}
