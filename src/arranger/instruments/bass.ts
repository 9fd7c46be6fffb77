import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter, saturate } from '../sound/filters.js';
import { decay, saw, sawStack, sine, square } from '../sound/oscillators.js';
import { framesOf, monoShot, noteFrequency, RATE } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** What tells one bass from another. */
export interface BassCharacter {
  readonly wave: 'saw' | 'square' | 'stack';
  readonly corner: Hertz;
  /** How far the envelope opens the filter, in octaves, and how quickly it closes. */
  readonly opening: number;
  readonly closing: Seconds;
  readonly q: number;
  /** Level of a sine at the note itself. */
  readonly sub: number;
  readonly drive: number;
}

export const BASSES = {
  rounded: { wave: 'square', corner: 220, opening: 1.6, closing: 0.09, q: 0.9, sub: 0.7, drive: 1.3 },
  plucked: { wave: 'saw', corner: 190, opening: 3.2, closing: 0.07, q: 1.8, sub: 0.6, drive: 1.6 },
  growling: { wave: 'stack', corner: 420, opening: 1.2, closing: 0.3, q: 1.2, sub: 0.8, drive: 2.4 },
  deep: { wave: 'square', corner: 130, opening: 0.8, closing: 0.2, q: 0.7, sub: 1, drive: 1.2 },
  squelching: { wave: 'saw', corner: 170, opening: 3, closing: 0.12, q: 5, sub: 0.35, drive: 1.8 },
  booming: { wave: 'square', corner: 90, opening: 1.5, closing: 0.05, q: 0.7, sub: 1.3, drive: 1.7 },
  fingered: { wave: 'saw', corner: 300, opening: 1.8, closing: 0.14, q: 0.8, sub: 0.5, drive: 1.2 },
} as const satisfies Record<string, BassCharacter>;
export type BassName = keyof typeof BASSES;

/** A bass note. */
export function renderBass(character: BassCharacter, note: number, duration: Seconds, random: Random): Shot {
  const frequency = noteFrequency(note);
  const wave = character.wave === 'saw' ? saw(0.25) : character.wave === 'square' ? square(0) : sawStack(3, 34, random);
  const sub = sine(0);
  const filter = createFilter(character.corner, character.q);
  const floor = createFilter(28);
  const release = 0.025;
  const held = framesOf(duration);
  return monoShot(duration + release * 3, (i) => {
    if (i % 16 === 0) {
      filter.tune(character.corner * 2 ** (character.opening * decay(i, character.closing)), character.q);
    }
    const envelope = Math.min(1, i / (0.003 * RATE)) * (i > held ? decay(i - held, release) : 1);
    const sustain = 0.75 + 0.25 * decay(i, 0.15);
    const raw = filter.low(wave(frequency)) * 0.8 + character.sub * sub(frequency);
    return floor.high(saturate(raw * character.drive)) * envelope * sustain * 0.7;
  });
}
