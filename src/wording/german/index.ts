import type { Words } from '../words.js';
import { CARD } from './card.js';
import { CORE } from './core.js';
import { REMARKS } from './remarks.js';
import { SENTENCES } from './sentences.js';
import { STORY } from './story.js';

/** German, with decimal commas and the German names of keys. */
export const GERMAN: Words = { ...CORE, irregularity: SENTENCES, remarks: REMARKS, card: CARD, story: STORY };
