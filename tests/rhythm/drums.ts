import { createFrontEnd, type FrontEnd } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

const RATE = 44_100;

/** A small band for tests: where its beats and bars fall is exactly known. */
export interface Band {
  /** Time of each beat (s). */
  readonly beats: readonly number[];
  /** Indices of the beats on which a bar starts, ascending. */
  readonly downbeats: readonly number[];
  /** From which beat to which (exclusive) the drums are silent. */
  readonly drumless?: readonly (readonly [number, number])[];
  readonly seed?: number;
  /** `floor`: kick on every beat; `two`: kick on one, snare half-way through the bar (half-time); `waltz`: kick on one. */
  readonly style?: 'floor' | 'two' | 'waltz';
  /** Place of the off-beat hat: 0.5 straight, 0.667 triplets. */
  readonly swing?: number;
  /** Seconds of sound after the last beat. */
  readonly tail?: number;
}

/** Mono samples at 44.1 kHz: drums, a bass note and a chord that change with the bar, a brighter layer every other eight bars. */
export function playBand(band: Band): Float32Array {
  const { beats, downbeats, drumless = [], style = 'floor', swing = 0.5, tail = 1 } = band;
  const random = randomNumbers(band.seed ?? 1);
  const out = new Float32Array(Math.ceil((beats[beats.length - 1] + tail) * RATE));
  const barOf = (i: number) => downbeats.filter((d) => d <= i).length - 1;
  beats.forEach((time, i) => {
    const next = beats[i + 1] ?? time + (time - beats[i - 1]);
    const bar = barOf(i);
    const place = bar >= 0 ? i - downbeats[bar] : 3;
    const length = bar >= 0 ? (downbeats[bar + 1] ?? downbeats[bar] + 4) - downbeats[bar] : 4;
    const silent = drumless.some(([a, b]) => i >= a && i < b);
    if (!silent) {
      if (style === 'floor' || place === 0) kick(out, time);
      if (style === 'floor' ? place % 2 === 1 : style === 'two' ? place === 2 : place > 0) snare(out, time, random);
      hat(out, time + swing * (next - time), random, 0.12);
      if (style !== 'floor') hat(out, time, random, 0.08);
      if (bar >= 0 && bar % 8 === 0 && place === 0) hat(out, time, random, 0.4, 0.5);
    }
    if (place === 0) {
      const root = [45, 41, 48, 43][((bar % 4) + 4) % 4];
      const end = beats[i + length] ?? next;
      for (const [note, level] of [
        [root - 12, 0.16],
        [root + 12, 0.05],
        [root + 16, 0.05],
        [root + 19, 0.05],
      ]) {
        tone(out, time, end - time, 440 * 2 ** ((note - 69) / 12), level);
      }
    }
    if (bar >= 0 && bar % 16 >= 8) tone(out, time, (next - time) * 0.4, 880 * 2 ** ((place * 2) / 12), 0.05);
  });
  return out;
}

/** A grid at one tempo: beats from `first` on, bars of `perBar` beats. */
export function steady(bpm: number, count: number, first = 0.1, perBar = 4): Pick<Band, 'beats' | 'downbeats'> {
  return {
    beats: Array.from({ length: count }, (_, i) => first + (i * 60) / bpm),
    downbeats: Array.from({ length: Math.ceil(count / perBar) }, (_, i) => i * perBar),
  };
}

export function hear(left: Float32Array, right = left): FrontEnd {
  const builder = createFrontEnd();
  for (let i = 0; i < left.length; i += 65_536)
    builder.push(left.subarray(i, i + 65_536), right.subarray(i, i + 65_536));
  return builder.finish();
}

/** F-measure of times matched one to one within ±window (Davies et al., "Evaluation methods for musical audio beat tracking", 2009). */
export function fMeasure(truth: readonly number[], found: readonly number[], window = 0.07): number {
  let hits = 0;
  for (let i = 0, j = 0; i < truth.length && j < found.length;) {
    const d = found[j] - truth[i];
    if (Math.abs(d) <= window) {
      hits++;
      i++;
      j++;
    } else if (d < 0) j++;
    else i++;
  }
  return (2 * hits) / Math.max(truth.length + found.length, 1);
}

function add(out: Float32Array, time: number, seconds: number, sample: (t: number) => number): void {
  const from = Math.round(time * RATE);
  for (let i = 0; i < seconds * RATE; i++)
    if (from + i >= 0 && from + i < out.length) out[from + i] += sample(i / RATE);
}

function kick(out: Float32Array, time: number): void {
  add(
    out,
    time,
    0.25,
    (t) => 0.5 * Math.exp(-t * 14) * Math.sin(2 * Math.PI * (50 * t + 2.4 * (1 - Math.exp(-t * 40)))),
  );
}

function snare(out: Float32Array, time: number, random: () => number): void {
  add(out, time, 0.15, (t) => 0.25 * Math.exp(-t * 25) * (random() * 2 - 1 + 0.5 * Math.sin(2 * Math.PI * 190 * t)));
}

function hat(out: Float32Array, time: number, random: () => number, level: number, decay = 0.03): void {
  let before = 0;
  add(out, time, decay * 5, (t) => {
    const noise = random() * 2 - 1;
    const high = noise - before;
    before = noise;
    return level * Math.exp(-t / decay) * high;
  });
}

function tone(out: Float32Array, time: number, seconds: number, hertz: number, level: number): void {
  add(out, time, seconds, (t) => {
    const fade = Math.min(1, t / 0.01, (seconds - t) / 0.02);
    return level * fade * (Math.sin(2 * Math.PI * hertz * t) + 0.4 * Math.sin(4 * Math.PI * hertz * t));
  });
}
