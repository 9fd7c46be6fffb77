import { wordsOf, type Language, type Speech } from '../languages.js';
import { MATCH_ENGLISH } from './english.js';
import { MATCH_GERMAN } from './german.js';
import type { MatchRemark } from './remarks.js';
import type { MatchWords } from './words.js';

export { isOpening, planOpening, startSentence, type StartFacts } from './opening.js';
export type { MatchWords } from './words.js';
export { KEY_RELATIONS, type Deck, type KeyRelation, type MatchRemark, type PlanSubject } from './remarks.js';

const TABLES: Readonly<Record<Language, MatchWords>> = { en: MATCH_ENGLISH, de: MATCH_GERMAN };

/** The words of two records on one count; a table of words of one's own gets those of its language. */
export function matchWordsOf(speech: Speech = 'en'): MatchWords {
  const { tag } = wordsOf(speech);
  return tag in TABLES ? TABLES[tag as Language] : MATCH_ENGLISH;
}

/** A remark as a sentence. @example sayMatch({ kind: 'no-irregularity' }) // 'Neither record leaves its pattern in the overlap.' */
export function sayMatch(remark: MatchRemark, speech: Speech = 'en'): string {
  return matchWordsOf(speech).remark(remark);
}
