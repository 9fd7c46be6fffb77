import { ENGLISH } from './english/index.js';
import { GERMAN } from './german/index.js';
import type { Words } from './words.js';

/** Every language there is a table for. */
export const LANGUAGES = { en: ENGLISH, de: GERMAN } as const satisfies Readonly<Record<string, Words>>;
export type Language = keyof typeof LANGUAGES;

/** A language by its tag, or a table of words of one's own: a teacher may have other names for things. */
export type Speech = Language | Words;

/** The words of a language. */
export function wordsOf(language: Speech = 'en'): Words {
  return typeof language === 'string' ? LANGUAGES[language] : language;
}
