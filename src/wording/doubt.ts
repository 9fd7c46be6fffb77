import type { Confidence, Fraction, Mode, PitchClass } from '../units/index.js';
import { wordsOf, type Speech } from './languages.js';

/** From here on an answer is given without a word of doubt; from the second on it is "fairly sure". */
const SURE: Fraction = 0.85;
const FAIRLY: Fraction = 0.6;

/** How sure: 'sure', 'fairly sure', 'not sure'. */
export function doubtWord(confidence: Confidence, language: Speech = 'en'): string {
  const { doubt } = wordsOf(language);
  if (confidence === null) return doubt.unknown;
  return confidence >= SURE ? doubt.sure : confidence >= FAIRLY ? doubt.fairly : doubt.not;
}

/** Whether an answer is given without a word of doubt. */
export function isSure(confidence: Confidence): boolean {
  return confidence !== null && confidence >= SURE;
}

/** Whether an answer is not even fairly sure, or cannot be judged. */
export function isDoubtful(confidence: Confidence): boolean {
  return confidence === null || confidence < FAIRLY;
}

/** An answer with its doubt behind it, nothing when it is sure. @example withDoubt('A minor', 0.7) // 'A minor, fairly sure' */
export function withDoubt(answer: string, confidence: Confidence, language: Speech = 'en'): string {
  return isSure(confidence) ? answer : `${answer}, ${doubtWord(confidence, language)}`;
}

/**
 * A key in words.
 * @public
 * @example keyName('A', 'minor') // 'A minor'
 */
export function keyName(tonic: PitchClass, mode: Mode, language: Speech = 'en'): string {
  return wordsOf(language).key(tonic, mode);
}
