import type { Fraction, Frames } from '../../units/index.js';
import { RATE } from '../sound/shot.js';
import { CONTROL_STEP } from './controls.js';
import type { Stereo } from './feed.js';

/** Changes one chunk of a bus in place; `start` is its place in the track, a multiple of the control step. */
export type Insert = (bus: Stereo, start: Frames, length: Frames) => void;

/** Echoes that cross from side to side, each duller than the one before. */
export function createEcho(delay: Frames, feedback: Fraction): Insert {
  const ringLeft = new Float32Array(delay);
  const ringRight = new Float32Array(delay);
  let place = 0;
  let dullLeft = 0;
  let dullRight = 0;
  return ({ left, right }, _start, length) => {
    for (let i = 0; i < length; i++) {
      dullLeft += 0.35 * (ringRight[place] - dullLeft);
      dullRight += 0.35 * (ringLeft[place] - dullRight);
      left[i] += feedback * dullLeft;
      right[i] += feedback * dullRight;
      ringLeft[place] = left[i];
      ringRight[place] = right[i];
      if (++place === delay) place = 0;
    }
  };
}

/** One channel of a two-pole low-pass whose corner follows a control curve. */
function createSide(corner: Float32Array, q: number): (side: Float32Array, start: Frames, length: Frames) => void {
  const k = 1 / q;
  let state1 = 0;
  let state2 = 0;
  return (side, start, length) => {
    let s1 = state1;
    let s2 = state2;
    for (let from = 0; from < length; from += CONTROL_STEP) {
      const g = Math.tan((Math.PI * Math.min(corner[(start + from) / CONTROL_STEP], RATE * 0.45)) / RATE);
      const a1 = 1 / (1 + g * (g + k));
      const a2 = g * a1;
      const a3 = g * a2;
      const end = Math.min(length, from + CONTROL_STEP);
      for (let i = from; i < end; i++) {
        const v3 = side[i] - s2;
        const v1 = a1 * s1 + a2 * v3;
        const v2 = s2 + a2 * s1 + a3 * v3;
        s1 = 2 * v1 - s1;
        s2 = 2 * v2 - s2;
        side[i] = v2;
      }
    }
    // Numbers too small to be heard would slow the processor down by ten times.
    state1 = Math.abs(s1) < 1e-12 ? 0 : s1;
    state2 = Math.abs(s2) < 1e-12 ? 0 : s2;
  };
}

/** The filter over a bus. */
export function createSweep(corner: Float32Array, q: number): Insert {
  const left = createSide(corner, q);
  const right = createSide(corner, q);
  return (bus, start, length) => {
    left(bus.left, start, length);
    right(bus.right, start, length);
  };
}

/** Turns a bus down under the kick, in straight lines between the values of the control curve. */
export function createDuck(curve: Float32Array, depth: Fraction): Insert {
  return ({ left, right }, start, length) => {
    for (let from = 0; from < length; from += CONTROL_STEP) {
      const step = (start + from) / CONTROL_STEP;
      if (curve[step] === 0 && curve[step + 1] === 0) continue;
      let gain = 1 - depth * curve[step];
      const slope = (1 - depth * curve[step + 1] - gain) / CONTROL_STEP;
      const end = Math.min(length, from + CONTROL_STEP);
      for (let i = from; i < end; i++) {
        left[i] *= gain;
        right[i] *= gain;
        gain += slope;
      }
    }
  };
}
