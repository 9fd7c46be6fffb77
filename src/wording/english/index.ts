import type { Words } from '../words.js';
import { CARD } from './card.js';
import { CORE } from './core.js';
import { REMARKS } from './remarks.js';
import { SENTENCES } from './sentences.js';
import { STORY } from './story.js';

/** English, with the count and clock of the printed pieces. */
export const ENGLISH: Words = { ...CORE, irregularity: SENTENCES, remarks: REMARKS, card: CARD, story: STORY };
