import { ENGLISH } from './english.js';
import type { Words } from './words.js';

/** Every language there is a table for. */
export const LANGUAGES = { en: ENGLISH } as const satisfies Readonly<Record<string, Words>>;
export type Language = keyof typeof LANGUAGES;

/** The words of a language. */
export function wordsOf(language: Language = 'en'): Words {
  return LANGUAGES[language];
}
