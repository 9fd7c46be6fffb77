import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter } from '../sound/filters.js';
import { decay, sawStack, sine } from '../sound/oscillators.js';
import type { Oscillator } from '../sound/oscillators.js';
import { fadeEnd, framesOf, noteFrequency, RATE } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** How a chord sounds. */
export interface ChordCharacter {
  /** Detuned saws, drawbars (a few sines in whole ratios) or struck bells (frequency modulation that dies away). */
  readonly source: 'saws' | 'drawbars' | 'bells';
  readonly voices: number;
  readonly cents: number;
  readonly attack: Seconds;
  readonly release: Seconds;
  readonly corner: Hertz;
  /** How far the envelope opens the filter, in octaves, and how quickly it closes. */
  readonly opening: number;
  readonly closing: Seconds;
  /** Level that stays after the first fall, from 0 to 1, and the time of the fall. */
  readonly sustain: number;
  readonly fall: Seconds;
}

export const CHORDS = {
  pad: {
    source: 'saws',
    voices: 3,
    cents: 22,
    attack: 0.18,
    release: 0.5,
    corner: 1500,
    opening: 0.4,
    closing: 1,
    sustain: 1,
    fall: 1,
  },
  choir: {
    source: 'saws',
    voices: 3,
    cents: 30,
    attack: 0.3,
    release: 0.6,
    corner: 900,
    opening: 0.8,
    closing: 1.5,
    sustain: 1,
    fall: 1,
  },
  glass: {
    source: 'bells',
    voices: 1,
    cents: 0,
    attack: 0.12,
    release: 0.7,
    corner: 3500,
    opening: 0.3,
    closing: 1,
    sustain: 0.8,
    fall: 1.5,
  },
  stab: {
    source: 'saws',
    voices: 3,
    cents: 18,
    attack: 0.002,
    release: 0.06,
    corner: 1100,
    opening: 2.2,
    closing: 0.09,
    sustain: 0.4,
    fall: 0.12,
  },
  bright: {
    source: 'saws',
    voices: 4,
    cents: 26,
    attack: 0.002,
    release: 0.08,
    corner: 3000,
    opening: 1.5,
    closing: 0.15,
    sustain: 0.6,
    fall: 0.2,
  },
  keys: {
    source: 'saws',
    voices: 2,
    cents: 8,
    attack: 0.003,
    release: 0.12,
    corner: 700,
    opening: 2.4,
    closing: 0.25,
    sustain: 0.45,
    fall: 0.35,
  },
  organ: {
    source: 'drawbars',
    voices: 1,
    cents: 0,
    attack: 0.003,
    release: 0.05,
    corner: 2600,
    opening: 0.6,
    closing: 0.1,
    sustain: 0.85,
    fall: 0.1,
  },
  tines: {
    source: 'bells',
    voices: 1,
    cents: 0,
    attack: 0.002,
    release: 0.18,
    corner: 5000,
    opening: 0.5,
    closing: 0.3,
    sustain: 0.35,
    fall: 0.5,
  },
} as const satisfies Record<string, ChordCharacter>;
export type ChordName = keyof typeof CHORDS;

function loudness(i: number, held: number, character: ChordCharacter): number {
  const rise = Math.min(1, i / (character.attack * RATE));
  const body = character.sustain + (1 - character.sustain) * decay(i, character.fall);
  return rise * body * (i > held ? decay(i - held, character.release / 3) : 1);
}

/** Levels of the drawbars at one, two, three, four and six times the note. */
const DRAWBARS = [1, 0.7, 0.45, 0.25, 0.12] as const;
const DRAWBAR_RATIOS = [1, 2, 3, 4, 6] as const;

function sourceOf(character: ChordCharacter, random: Random): Oscillator {
  if (character.source === 'saws') return sawStack(character.voices, character.cents, random);
  if (character.source === 'drawbars') {
    const bars = DRAWBAR_RATIOS.map(() => sine(random.next()));
    return (frequency) => bars.reduce((sum, bar, i) => sum + DRAWBARS[i] * bar(frequency * DRAWBAR_RATIOS[i]), 0) * 0.6;
  }
  let time = 0;
  let carrier = random.next();
  let modulator = 0;
  return (frequency) => {
    carrier += frequency / RATE;
    modulator += (2 * frequency) / RATE;
    const index = 0.5 + 2 * decay(time++, 0.18);
    return Math.sin(2 * Math.PI * carrier + index * Math.sin(2 * Math.PI * modulator)) * 0.9;
  };
}

/** A chord of MIDI notes through a filter with an envelope; each side has its own phases. */
export function renderChord(
  character: ChordCharacter,
  notes: readonly number[],
  duration: Seconds,
  random: Random,
): Shot {
  const held = framesOf(duration);
  const side = (): Float32Array => {
    const values = new Float32Array(framesOf(duration + character.release));
    const stacks = notes.map((note) => ({
      wave: sourceOf(character, random),
      frequency: noteFrequency(note) * 2 ** (random.between(-3, 3) / 1200),
    }));
    const filter = createFilter(character.corner);
    const floor = createFilter(150);
    const scale = 0.5 / Math.sqrt(notes.length);
    for (let i = 0; i < values.length; i++) {
      if (i % 32 === 0) filter.tune(character.corner * 2 ** (character.opening * decay(i, character.closing)), 0.9);
      let sum = 0;
      for (const stack of stacks) sum += stack.wave(stack.frequency);
      values[i] = floor.high(filter.low(sum)) * scale * loudness(i, held, character);
    }
    fadeEnd(values);
    return values;
  };
  return { left: side(), right: side() };
}
