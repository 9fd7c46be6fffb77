/** Numbers from 0 to 1. */
export type Chance = () => number;

/** Draws numbers between two bounds. */
export const drawer =
  (chance: Chance) =>
  (low: number, high: number): number =>
    low + chance() * (high - low);

const RATE = 44_100;
const ATTACK = 0.008;
const RELEASE = 0.015;

/** Adds a sound given as a function of time since its attack. */
export function hit(out: Float32Array, time: number, seconds: number, sound: (t: number) => number): void {
  const from = Math.round(time * RATE);
  const to = Math.min(out.length, from + Math.ceil(seconds * RATE));
  for (let i = Math.max(0, from); i < to; i++) out[i] += sound((i - from) / RATE);
}

/** Adds a held tone of two partials. */
export function hold(
  out: Float32Array,
  time: number,
  seconds: number,
  hertz: number,
  level: number,
  second: number,
): void {
  hit(out, time, seconds, (t) => {
    const fade = Math.max(0, Math.min(1, t / ATTACK, (seconds - t) / RELEASE));
    return level * fade * (Math.sin(2 * Math.PI * hertz * t) + second * Math.sin(4 * Math.PI * hertz * t));
  });
}

/** Exponential decay. @param rate per second */
export function decay(t: number, rate: number): number {
  return Math.exp(-t * rate);
}
