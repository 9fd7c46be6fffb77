import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter } from '../sound/filters.js';
import { decay, noise, saw } from '../sound/oscillators.js';
import { fadeEnd, framesOf, noteFrequency, RATE } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** Vowels as the first four formants of a speaker: frequencies in hertz and levels (typical of phonetics textbooks). */
export const VOWELS = {
  ah: { formants: [730, 1150, 2600, 3300], levels: [1, 0.6, 0.3, 0.18] },
  eh: { formants: [560, 1800, 2550, 3400], levels: [1, 0.5, 0.36, 0.2] },
  ee: { formants: [310, 2250, 2950, 3500], levels: [1, 0.4, 0.36, 0.22] },
  oh: { formants: [500, 880, 2500, 3300], levels: [1, 0.55, 0.22, 0.12] },
  oo: { formants: [340, 820, 2350, 3250], levels: [1, 0.4, 0.18, 0.1] },
} as const;
export type Vowel = keyof typeof VOWELS;
export const VOWEL_NAMES = Object.keys(VOWELS) as Vowel[];

/** How a syllable begins. */
export type Onset = 'none' | 'hiss' | 'stop' | 'hum';

/** A sung syllable: from one vowel towards another. */
export interface Syllable {
  readonly note: number;
  readonly duration: Seconds;
  readonly vowel: Vowel;
  readonly towards: Vowel;
  readonly onset: Onset;
}

const FORMANT_QUALITY = [7, 10, 13, 14] as const;

/** Root mean square to which the sung part of every syllable is brought: a singer evens vowels out, resonances don't. */
const SUNG_RMS = 0.17;

/** Brings the held part of a syllable to the common level. */
function evenOut(values: Float32Array, from: number, to: number): void {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i] * values[i];
  const scale = SUNG_RMS / Math.sqrt(sum / Math.max(1, to - from) + 1e-9);
  for (let i = 0; i < values.length; i++) values[i] *= scale;
}

/** Pitch in hertz over a syllable: scooped from below, with a vibrato that comes late and a little unsteadiness. */
function pitchLine(syllable: Syllable, random: Random): (i: number) => Hertz {
  const base = noteFrequency(syllable.note);
  const scoop = random.between(40, 130);
  const rate = random.between(5, 6);
  const depth = random.between(18, 34);
  let wander = 0;
  return (i) => {
    const t = i / RATE;
    wander += 0.002 * (random.next() - 0.5 - 0.01 * wander);
    const vibrato = Math.min(1, Math.max(0, (t - 0.22) / 0.3)) * depth * Math.sin(2 * Math.PI * rate * t);
    return base * 2 ** ((vibrato - scoop * decay(i, 0.035) + 60 * wander) / 1200);
  };
}

function take(syllable: Syllable, size: number, random: Random): Float32Array {
  const lead = syllable.onset === 'none' ? 0 : framesOf(0.045);
  const held = framesOf(syllable.duration);
  const values = new Float32Array(held + framesOf(0.12));
  const pitch = pitchLine(syllable, random);
  const cords = saw(random.next());
  const hiss = noise(random);
  const tilt = createFilter(2800, 0.6);
  const sibilance = createFilter(syllable.onset === 'hiss' ? 5200 : 2400, 1.2);
  const formants = FORMANT_QUALITY.map((q) => createFilter(1000, q));
  const from = VOWELS[syllable.vowel];
  const to = VOWELS[syllable.towards];
  let hertz = pitch(0);
  const levels = [0, 0, 0, 0];
  for (let i = 0; i < values.length; i++) {
    if (i % 32 === 0) {
      hertz = pitch(i);
      const way = Math.min(1, Math.max(0, (i / held - 0.35) / 0.5));
      for (let f = 0; f < 4; f++) {
        const corner = (from.formants[f] + (to.formants[f] - from.formants[f]) * way) * size;
        formants[f].tune(f === 0 ? Math.max(corner, hertz * 1.05) : corner, FORMANT_QUALITY[f]);
        levels[f] = from.levels[f] + (to.levels[f] - from.levels[f]) * way;
      }
    }
    const source = tilt.low(cords(hertz)) + 0.035 * hiss();
    let sung = 0;
    for (let f = 0; f < 4; f++) sung += levels[f] * formants[f].band(source);
    const rise = i < lead ? (syllable.onset === 'hum' ? 0.35 : 0) : Math.min(1, (i - lead) / (0.02 * RATE));
    const release = i > held ? decay(i - held, 0.03) : 1;
    const noisy = syllable.onset === 'hiss' ? 0.5 : syllable.onset === 'stop' ? 0.9 * decay(i, 0.012) : 0;
    const consonant = i < lead + 400 ? sibilance.band(hiss()) * noisy * Math.min(1, i / 200) * 0.35 : 0;
    values[i] =
      sung * Math.max(rise, 0) * release * 1.6 + consonant * (i > lead ? Math.max(0, 1 - (i - lead) / 400) : 1);
  }
  evenOut(values, Math.min(lead, held >> 1), held);
  fadeEnd(values);
  return values;
}

/**
 * A sung syllable by formant synthesis (source and four resonances side by side, after Klatt 1980), doubled: each side is
 * a take of its own. `size` scales the formants: 1 for a low voice, 1.15 for a high one.
 */
export function renderSyllable(syllable: Syllable, size: number, random: Random): Shot {
  const main = take(syllable, size, random);
  const second = take(syllable, size, random);
  const left = new Float32Array(main.length);
  const right = new Float32Array(main.length);
  for (let i = 0; i < main.length; i++) {
    left[i] = 0.8 * main[i] + 0.35 * second[i];
    right[i] = 0.8 * main[i] - 0.1 * second[i] + 0.3 * (i >= 500 ? second[i - 500] : 0);
  }
  return { left, right };
}
