import type { Language } from '../../src/wording/index.js';
import { ENGLISH_PRINT } from './english.js';
import { GERMAN_PRINT } from './german.js';
import type { PrintWords } from './print-words.js';

export type { LessonWords, PrintWords, WorksheetWords } from './print-words.js';

/** The words of printed pieces, in every language that src/wording has. */
export const PRINT_LANGUAGES: Readonly<Record<Language, PrintWords>> = { en: ENGLISH_PRINT, de: GERMAN_PRINT };
