import type { Fraction, Frames } from '../../units/index.js';
import { RATE } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';
import { CONTROL_STEP } from './controls.js';

/** A sound at its place. */
export interface Hit {
  readonly shot: Shot;
  readonly frame: Frames;
  readonly left: number;
  readonly right: number;
}

/** Two channels of equal length. */
export interface Stereo {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

function addSide(bus: Float32Array, sound: Float32Array, frame: Frames, gain: number): void {
  const from = Math.max(0, -frame);
  const to = Math.min(sound.length, bus.length - frame);
  for (let i = from; i < to; i++) bus[frame + i] += gain * sound[i];
}

/** Adds sounds to a bus. */
export function addHits(bus: Stereo, hits: readonly Hit[]): void {
  for (const hit of hits) {
    addSide(bus.left, hit.shot.left, hit.frame, hit.left);
    addSide(bus.right, hit.shot.right, hit.frame, hit.right);
  }
}

/** Echoes that cross from side to side, each duller than the one before. */
export function echo(bus: Stereo, delay: Frames, feedback: Fraction): void {
  const { left, right } = bus;
  let dullLeft = 0;
  let dullRight = 0;
  for (let i = delay; i < left.length; i++) {
    dullLeft += 0.35 * (right[i - delay] - dullLeft);
    dullRight += 0.35 * (left[i - delay] - dullRight);
    left[i] += feedback * dullLeft;
    right[i] += feedback * dullRight;
  }
}

/** A two-pole low-pass whose corner follows a control curve. */
export function sweepFilter(side: Float32Array, corner: Float32Array, q: number): void {
  const k = 1 / q;
  let state1 = 0;
  let state2 = 0;
  for (let start = 0, step = 0; start < side.length; start += CONTROL_STEP, step++) {
    const g = Math.tan((Math.PI * Math.min(corner[step], RATE * 0.45)) / RATE);
    const a1 = 1 / (1 + g * (g + k));
    const a2 = g * a1;
    const a3 = g * a2;
    const end = Math.min(side.length, start + CONTROL_STEP);
    for (let i = start; i < end; i++) {
      const v3 = side[i] - state2;
      const v1 = a1 * state1 + a2 * v3;
      const v2 = state2 + a2 * state1 + a3 * v3;
      state1 = 2 * v1 - state1;
      state2 = 2 * v2 - state2;
      side[i] = v2;
    }
  }
}

/** Turns a bus down under the kick, in straight lines between the values of the control curve. */
export function duckUnder(bus: Stereo, curve: Float32Array, depth: Fraction): void {
  const { left, right } = bus;
  for (let start = 0, step = 0; start < left.length; start += CONTROL_STEP, step++) {
    let gain = 1 - depth * curve[step];
    const slope = (1 - depth * curve[step + 1] - gain) / CONTROL_STEP;
    const end = Math.min(left.length, start + CONTROL_STEP);
    for (let i = start; i < end; i++) {
      left[i] *= gain;
      right[i] *= gain;
      gain += slope;
    }
  }
}

/** Adds a bus to the master and, at half the rate and in mono, to the reverberation. */
export function addToMaster(bus: Stereo, master: Stereo, send: Float32Array, gain: number, wet: number): void {
  const { left, right } = bus;
  for (let i = 0; i < left.length; i++) {
    master.left[i] += gain * left[i];
    master.right[i] += gain * right[i];
  }
  if (wet === 0) return;
  const scale = 0.25 * gain * wet;
  for (let k = 0, i = 0; i + 1 < left.length; k++, i += 2) {
    send[k] += scale * (left[i] + right[i] + left[i + 1] + right[i + 1]);
  }
}
