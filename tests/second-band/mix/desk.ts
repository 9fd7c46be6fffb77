import type { Dice } from '../dice.js';
import { STEMS, type Stage, type Stem, type Stems } from '../playing/stage.js';
import { RATE } from '../voices/shapes.js';
import { room } from './room.js';

/** Where the faders stand, in decibels against the kick, and how far a track may depart from it either way. */
const FADERS: Readonly<Record<Stem, readonly [level: number, spread: number]>> = {
  kick: [0, 1.5],
  bass: [-5, 3],
  drums: [-4, 3],
  tops: [-8, 4],
  keys: [-7, 4],
  voice: [-5, 3],
  effects: [-9, 3],
};

const WET: Readonly<Record<Stem, number>> = { kick: 0, bass: 0, drums: 0.12, tops: 0.06, keys: 0.3, voice: 0.35, effects: 0.4 }; // prettier-ignore
const WIDE: Readonly<Record<Stem, number>> = { kick: 0, bass: 0, drums: 0.1, tops: 0.5, keys: 0.7, voice: 0.15, effects: 0.8 }; // prettier-ignore

export interface Mix {
  readonly left: Float32Array;
  readonly right: Float32Array;
  /** The stems as they are in the mix, without their room, so that levels can be compared. */
  readonly stems: Stems;
}

/** Balances the stems to one level each, then sets the faders, the ducking, the width and the room. */
export function mixDown(stage: Stage, d: Dice): Mix {
  const { stems, kicks, style } = stage;
  const length = stems.kick.length;
  const [left, right, send] = [0, 1, 2].map(() => new Float32Array(length));
  const duck = ducking(length, kicks, d.between(style.duck[0], style.duck[1]), d.between(0.08, 0.28));
  const width = d.happens(0.1) ? 0 : d.between(0.4, 1);
  const wet = d.between(0.3, 1.3);
  const reach = Math.round(d.between(0.009, 0.017) * RATE);
  for (const stem of STEMS) {
    const x = stems[stem];
    const [level, spread] = FADERS[stem];
    const gain = 10 ** ((level + d.between(-spread, spread)) / 20) / loud(x);
    const gives = stem === 'bass' || stem === 'keys';
    for (let i = 0; i < length; i++) x[i] *= gain * (gives ? duck[i] : 1);
    const side = WIDE[stem] * width * 0.6;
    for (let i = 0; i < length; i++) {
      const s = side * (i >= reach ? x[i - reach] : 0);
      left[i] += x[i] + s;
      right[i] += x[i] - s;
      send[i] += x[i] * WET[stem] * wet;
    }
  }
  const [roomLeft, roomRight] = room(send, d.between(0.5, 2.2), d.between(0.2, 0.6));
  const middle = width === 0;
  for (let i = 0; i < length; i++) {
    const mono = 0.5 * (roomLeft[i] + roomRight[i]);
    left[i] += 0.5 * (middle ? mono : roomLeft[i]);
    right[i] += 0.5 * (middle ? mono : roomRight[i]);
  }
  return { left, right, stems };
}

/** Level of a stem where it plays: the 90th percentile of its 50 ms peaks. */
function loud(x: Float32Array): number {
  const block = Math.round(0.05 * RATE);
  const peaks: number[] = [];
  for (let i = 0; i < x.length; i += block) {
    let peak = 0;
    for (let k = i; k < Math.min(x.length, i + block); k++) peak = Math.max(peak, Math.abs(x[k]));
    if (peak > 1e-4) peaks.push(peak);
  }
  peaks.sort((a, b) => a - b);
  return peaks[Math.floor(0.9 * (peaks.length - 1))] ?? 1;
}

function ducking(length: number, kicks: readonly number[], decibels: number, seconds: number): Float32Array {
  const out = new Float32Array(length).fill(1);
  if (decibels < 0.5) return out;
  for (const kick of kicks) {
    const from = Math.round(kick * RATE);
    const n = Math.round(seconds * RATE);
    for (let i = 0; i < n && from + i < length; i++) {
      out[from + i] = Math.min(out[from + i], 10 ** ((-decibels * (1 - i / n) ** 1.5 * Math.min(1, i / 90)) / 20));
    }
  }
  return out;
}
