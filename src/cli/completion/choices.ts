import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import {
  CARD_PAPERS,
  INDEX_ORDERS,
  LESSON_PAPERS,
  LEVELS,
  SHEET_ORDERS,
  SHEET_PAPERS,
  WORKSHEET_PAPERS,
} from '../../../reports/index.js';
import { CRATE_ORDERS } from '../../crate/index.js';
import { TABLES, TAKEABLE } from '../../exchange/index.js';
import { SHAPES, TEMPO_CHANGES } from '../../matching/index.js';
import { packageFolder } from '../../notebook/index.js';
import { CONTRASTS, DRILLS, FADE_SHAPES } from '../../practice/index.js';
import { LANGUAGES } from '../../wording/index.js';

/** Shells that there is a completion for. */
export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

/** Words by the option or command that takes them, as `fixedChoices` names it. */
export type Choices = Readonly<Record<string, readonly string[]>>;

/**
 * The words that an option (`cards --paper`; `--language` of any command) or the first argument (`completion`) of a
 * command takes, where they are few and fixed.
 */
export function fixedChoices(): Choices {
  return {
    '--language': Object.keys(LANGUAGES),
    '--spoken': Object.keys(LANGUAGES),
    '--change': TEMPO_CHANGES,
    'cards --paper': Object.keys(CARD_PAPERS),
    'cards --layout': Object.keys(SHEET_PAPERS),
    'cards --order': SHEET_ORDERS,
    'cards --index': INDEX_ORDERS,
    'lesson --paper': Object.keys(LESSON_PAPERS),
    'worksheet --paper': Object.keys(WORKSHEET_PAPERS),
    'worksheet --level': LEVELS.map(String),
    'crate --sort': CRATE_ORDERS,
    'export --format': ['jams', 'midi', 'csv', 'jsonl'],
    'export --table': TABLES,
    'order --shape': SHAPES,
    'practice rehearse --fade': FADE_SHAPES,
    'practice rehearse --contrast': CONTRASTS,
    'practice drill': DRILLS,
    'correct --take': TAKEABLE,
    notebook: notebooks(),
    completion: SHELLS,
  };
}

/** The words for an option or for the first argument of a command; null where anything can be given. */
export function choicesFor(choices: Choices, path: readonly string[], option?: string): readonly string[] | null {
  const command = path.slice(1).join(' ');
  const key = option === undefined ? command : `${command} ${option}`;
  return choices[key] ?? (option === undefined ? null : (choices[option] ?? null));
}

function notebooks(): string[] {
  const names = readdirSync(join(packageFolder(), 'notebooks'));
  return names.filter((name) => name.endsWith('.ipynb')).map((name) => name.replace(/\.ipynb$/, '')).sort(); // prettier-ignore
}
