import type { Dice } from '../dice.js';
import { full, hiss, pitch, RATE, sound, tone } from './shapes.js';

/** First three formants of five vowels in hertz, a man's: Peterson & Barney 1952, table II, rounded. */
const VOWELS = [
  [730, 1090, 2440],
  [530, 1840, 2480],
  [270, 2290, 3010],
  [570, 840, 2410],
  [300, 870, 2240],
] as const;

export type Sing = (note: number, seconds: number, vowel: number) => Float32Array;

/** A singer: a pulse with vibrato through three formants, a consonant of noise at its start. */
export function drawSinger(d: Dice): Sing {
  const size = d.between(1, 1.22);
  const rate = d.between(4.6, 6.2);
  const width = d.between(0.05, 0.35);
  const breath = d.between(0.02, 0.12);
  const kept = new Map<string, Float32Array>();
  return (note, seconds, vowel) => {
    const key = `${note} ${seconds.toFixed(3)} ${vowel}`;
    const known = kept.get(key);
    if (known) return known;
    const noise = hiss(note * 31 + vowel);
    let phase = 0;
    const source = sound(seconds + 0.06, (t) => {
      const scoop = -1.2 * Math.exp(-t / 0.05);
      const vibrato = width * Math.min(1, t / 0.4) * Math.sin(6.28318 * rate * t);
      phase = (phase + pitch(note + scoop + vibrato) / RATE) % 1;
      const pulse = phase < 0.6 ? Math.sin((Math.PI * phase) / 0.6) ** 2 - 0.3 : -0.3;
      const swell = Math.min(1, t / 0.035) * (t < seconds ? 1 : Math.max(0, 1 - (t - seconds) / 0.06));
      return swell * (pulse + breath * noise());
    });
    const edge = source.map((v, i) => v - 0.9 * (source[i - 1] ?? 0));
    const parts = VOWELS[vowel].map((f, k) => tone(edge.slice(), 'band', f * size, 7 + 2 * k));
    const out = full(edge.map((_, i) => parts[0][i] + 0.6 * parts[1][i] + 0.35 * parts[2][i]));
    const consonant = tone(
      sound(0.05, (t) => noise() * Math.sin((Math.PI * t) / 0.05)),
      'high',
      3800,
    );
    consonant.forEach((v, i) => (out[i] += 0.18 * v));
    kept.set(key, out);
    return out;
  };
}
