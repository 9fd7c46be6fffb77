import type { Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter } from '../sound/filters.js';
import { decay, saw, sawStack, square } from '../sound/oscillators.js';
import type { Oscillator } from '../sound/oscillators.js';
import { fadeEnd, framesOf, noteFrequency, RATE } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** A single plucked note for arpeggios. */
export function renderPluck(note: number, duration: Seconds, hardness: number, random: Random): Shot {
  const frequency = noteFrequency(note);
  const waves = [saw(random.next()), square(random.next())];
  const filter = createFilter(600, 1.4);
  const ringing = Math.max(0.08, duration * 0.6);
  const values = new Float32Array(framesOf(duration + 0.25));
  for (let i = 0; i < values.length; i++) {
    if (i % 16 === 0) filter.tune(500 + (1200 + 3800 * hardness) * decay(i, 0.05 + 0.05 * hardness), 1.4);
    const raw = 0.6 * waves[0](frequency * 1.002) + 0.4 * waves[1](frequency * 0.998);
    values[i] = filter.low(raw) * Math.min(1, i / 60) * decay(i, ringing) * 0.6;
  }
  fadeEnd(values);
  return { left: values, right: values };
}

/** A sung-out lead note with a late vibrato; it glides up to its pitch. */
export function renderLead(note: number, duration: Seconds, random: Random): Shot {
  const frequency = noteFrequency(note);
  const held = framesOf(duration);
  const rate = random.between(5, 5.8);
  const side = (wave: Oscillator, cents: number): Float32Array => {
    const values = new Float32Array(held + framesOf(0.12));
    const filter = createFilter(3200, 1);
    for (let i = 0; i < values.length; i++) {
      const t = i / RATE;
      const vibrato = Math.min(1, Math.max(0, (t - 0.18) / 0.25)) * 14 * Math.sin(2 * Math.PI * rate * t);
      const glide = -60 * decay(i, 0.018);
      const bend = 2 ** ((vibrato + glide + cents) / 1200);
      const envelope = Math.min(1, i / (0.006 * RATE)) * (i > held ? decay(i - held, 0.03) : 0.7 + 0.3 * decay(i, 0.2));
      values[i] = filter.low(wave(frequency * bend)) * envelope * 0.5;
    }
    fadeEnd(values);
    return values;
  };
  return { left: side(sawStack(3, 14, random), -4), right: side(sawStack(3, 14, random), 4) };
}
