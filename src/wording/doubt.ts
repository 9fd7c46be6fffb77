import type { Bpm, Confidence, Fraction, Mode, PitchClass } from '../units/index.js';
import { wordsOf, type Language } from './languages.js';

/** From here on an answer is given without a word of doubt; from the second on it is "fairly sure". */
const SURE = 0.85;
const FAIRLY = 0.6;

/** A second reading with at least this share of the first one's weight is told beside it. */
const RIVAL = 0.35;

/** How sure: 'sure', 'fairly sure', 'not sure'. */
export function doubtWord(confidence: Confidence, language: Language = 'en'): string {
  const { doubt } = wordsOf(language);
  if (confidence === null) return doubt.unknown;
  return confidence >= SURE ? doubt.sure : confidence >= FAIRLY ? doubt.fairly : doubt.not;
}

/** An answer with its doubt behind it, nothing when it is sure. @example withDoubt('A minor', 0.7) // 'A minor, fairly sure' */
export function withDoubt(answer: string, confidence: Confidence, language: Language = 'en'): string {
  return confidence !== null && confidence >= SURE ? answer : `${answer}, ${doubtWord(confidence, language)}`;
}

/** A key in words. @example keyName('A', 'minor') // 'A minor' */
export function keyName(tonic: PitchClass, mode: Mode, language: Language = 'en'): string {
  return wordsOf(language).key(tonic, mode);
}

/** A tempo as it is read aloud: whole where it is whole to a hundredth, else with one or two decimals. */
export function tempoNumber(bpm: Bpm): string {
  return `${Math.round(bpm * 100) / 100}`;
}

/**
 * The tempo, or the two tempos that are in question.
 * @param alternatives every reading, the chosen one first
 * @example tempoReading([{ bpm: 87, weight: 0.55 }, { bpm: 174, weight: 0.45 }]) // '87 or 174?'
 */
export function tempoReading(
  alternatives: readonly { readonly bpm: Bpm; readonly weight: Fraction }[],
  language: Language = 'en',
): string {
  const [first, ...others] = alternatives;
  if (first === undefined) return doubtWord(null, language);
  const rival = others.reduce<(typeof others)[number] | null>(
    (a, b) => (a !== null && a.weight >= b.weight ? a : b),
    null,
  );
  if (rival === null || rival.weight < RIVAL * first.weight) return tempoNumber(first.bpm);
  const [low, high] = [first.bpm, rival.bpm].sort((a, b) => a - b);
  return wordsOf(language).either(tempoNumber(low), tempoNumber(high));
}
