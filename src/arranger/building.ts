import type { Layer, SectionFunction } from '../units/index.js';
import type { ArrangedPart, ArrangedPhrase } from './arrangement.js';

const LETTERS: Readonly<Record<string, Layer>> = {
  k: 'kick',
  b: 'bass',
  p: 'percussion',
  h: 'harmony',
  v: 'voice',
};

/**
 * A phrase in short: its length and the letters of its layers (kick, bass, percussion, harmony, voice).
 * @example phraseOf(8, 'kp', { fill: 'toms' }).layers // ['kick', 'percussion']
 */
export function phraseOf(
  bars: number,
  layers: string,
  rest: Omit<ArrangedPhrase, 'bars' | 'layers'> = {},
): ArrangedPhrase {
  return { bars, layers: [...layers].map((letter) => LETTERS[letter]), ...rest };
}

export function partOf(sectionFunction: SectionFunction, ...phrases: ArrangedPhrase[]): ArrangedPart {
  return { function: sectionFunction, phrases };
}
