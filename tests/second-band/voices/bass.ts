import type { Dice } from '../dice.js';
import { full, hiss, pitch, RATE, sound, tone } from './shapes.js';

export type Player = (note: number, seconds: number) => Float32Array;

const gate = (t: number, seconds: number) =>
  Math.min(1, t / 0.004) * (t < seconds ? 1 : Math.max(0, 1 - (t - seconds) / 0.03));

/** Keeps what was played: the same note of the same length sounds the same. */
export function remembered(play: Player): Player {
  const kept = new Map<string, Float32Array>();
  return (note, seconds) => {
    const key = `${note} ${seconds.toFixed(3)}`;
    const known = kept.get(key);
    if (known) return known;
    const fresh = full(play(note, seconds));
    kept.set(key, fresh);
    return fresh;
  };
}

/** A plucked string: Karplus & Strong 1983, "Digital synthesis of plucked-string and drum timbres". */
export function string(note: number, seconds: number, damping: number, seed: number): Float32Array {
  const period = Math.max(2, Math.round(RATE / pitch(note)));
  const noise = hiss(seed);
  const line = Float32Array.from({ length: period }, () => noise());
  let last = 0;
  return sound(seconds + 0.05, (t, i) => {
    const k = i % period;
    const v = line[k];
    line[k] = (damping * (v + last)) / 2;
    last = v;
    return v * gate(t, seconds);
  });
}

/** A bass: pure, phase-modulated, resonant or plucked. */
export function drawBass(d: Dice, acoustic: boolean): Player {
  const kind = acoustic
    ? d.one(['plucked', 'plucked', 'modulated'])
    : d.one(['pure', 'modulated', 'resonant', 'hollow']);
  const depth = d.between(0.8, 3);
  const bite = d.between(300, 1600);
  const fall = d.between(0.08, 0.3);
  return remembered((note, seconds) => {
    const f = pitch(note);
    const turn = 6.28318 * f;
    if (kind === 'plucked') return tone(string(note, seconds, 0.996, note), 'low', 1100);
    if (kind === 'pure') return sound(seconds + 0.04, (t) => Math.tanh(1.6 * Math.sin(turn * t)) * gate(t, seconds));
    if (kind === 'modulated')
      return sound(seconds + 0.04, (t) => Math.sin(turn * t + depth * Math.exp(-t / fall) * Math.sin(turn * 2 * t)) * gate(t, seconds)); // prettier-ignore
    const saw = sound(seconds + 0.04, (t) => {
      const phase = (f * t) % 1;
      return (kind === 'hollow' ? (phase < 0.5 ? 0.6 : -0.6) : 1 - 2 * phase) * gate(t, seconds);
    });
    return tone(saw, 'low', (i) => 120 + bite * Math.exp(-i / RATE / fall), kind === 'hollow' ? 0.8 : 2.2);
  });
}
