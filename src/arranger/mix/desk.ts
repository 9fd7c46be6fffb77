import type { Frames } from '../../units/index.js';
import { RATE } from '../sound/shot.js';
import { CONTROL_STEP } from './controls.js';
import type { Feed, Stereo } from './feed.js';
import type { Insert } from './inserts.js';
import type { Reverb } from './reverb.js';

/** A channel of the desk. */
export interface Channel {
  readonly feed: Feed;
  readonly inserts: readonly Insert[];
  readonly gain: number;
  /** Level into the reverberation. */
  readonly wet: number;
}

/** What a channel adds to the master: before the reverberation, at its gain. */
export type Tap = (channel: number, bus: Stereo, start: Frames, length: Frames, gain: number) => void;

/** Frames mixed at a time: few enough for the processor's cache. */
export const CHUNK: Frames = 128 * CONTROL_STEP;
/** A channel is left alone when nothing has been fed to it for so long: echoes have died away by then. */
const RINGING: Frames = 6 * RATE;

function addScaled(from: Stereo, to: Stereo, start: Frames, length: Frames, gain: number): void {
  const { left, right } = from;
  for (let i = 0; i < length; i++) {
    to.left[start + i] += gain * left[i];
    to.right[start + i] += gain * right[i];
  }
}

/** Adds a chunk in mono and at half the rate to what goes into the reverberation. */
function addSend({ left, right }: Stereo, send: Float32Array, length: Frames, gain: number): void {
  for (let k = 0, i = 0; i + 1 < length; k++, i += 2) {
    send[k] += 0.25 * gain * (left[i] + right[i] + left[i + 1] + right[i + 1]);
  }
}

/** Mixes channels and reverberation into the master, chunk by chunk; `onChunk` is told the share that is done, `tap` hears each channel. */
export function mixDown(
  channels: readonly Channel[],
  reverb: Reverb,
  master: Stereo,
  onChunk: (done: number) => void,
  tap?: Tap,
): void {
  const frames = master.left.length;
  const bus: Stereo = { left: new Float32Array(CHUNK), right: new Float32Array(CHUNK) };
  const send = new Float32Array(CHUNK / 2);
  const lastFed = channels.map(() => -Infinity);
  for (let start = 0; start < frames; start += CHUNK) {
    const length = Math.min(CHUNK, frames - start);
    send.fill(0);
    channels.forEach((channel, c) => {
      bus.left.fill(0);
      bus.right.fill(0);
      if (channel.feed(bus, start, length)) lastFed[c] = start;
      else if (start - lastFed[c] > RINGING) return;
      for (const insert of channel.inserts) insert(bus, start, length);
      addScaled(bus, master, start, length, channel.gain);
      tap?.(c, bus, start, length, channel.gain);
      if (channel.wet > 0) addSend(bus, send, length, channel.gain * channel.wet);
    });
    reverb(send, master, start, length);
    onChunk(Math.min(1, (start + length) / frames));
  }
}
