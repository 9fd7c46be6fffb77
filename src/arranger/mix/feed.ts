import type { Frames } from '../../units/index.js';
import type { Shot } from '../sound/shot.js';

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

/** Lays sounds into one chunk of a bus; says whether there were any. Chunks are asked for in order, without gaps. */
export type Feed = (bus: Stereo, start: Frames, length: Frames) => boolean;

function addSide(bus: Float32Array, sound: Float32Array, offset: Frames, length: Frames, gain: number): void {
  const from = Math.max(0, -offset);
  const to = Math.min(sound.length, length - offset);
  for (let i = from; i < to; i++) bus[offset + i] += gain * sound[i];
}

/** A feed of sounds in any order. */
export function createFeed(hits: readonly Hit[]): Feed {
  const waiting = [...hits].sort((a, b) => a.frame - b.frame);
  let next = 0;
  let sounding: Hit[] = [];
  return (bus, start, length) => {
    while (next < waiting.length && waiting[next].frame < start + length) sounding.push(waiting[next++]);
    if (sounding.length === 0) return false;
    for (const hit of sounding) {
      addSide(bus.left, hit.shot.left, hit.frame - start, length, hit.left);
      addSide(bus.right, hit.shot.right, hit.frame - start, length, hit.right);
    }
    sounding = sounding.filter((hit) => hit.frame + hit.shot.left.length > start + length);
    return true;
  };
}
