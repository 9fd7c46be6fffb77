import {
  HATCHES,
  INK_SAVING_HATCHES,
  ladderWords,
  PAPER_THEME,
  type LadderTheme,
  type LadderWords,
  type LayerHatches,
} from '../../src/ladder/index.js';
import { BarwiseError, LAYERS } from '../../src/index.js';
import { wordsOf, type Language, type Words } from '../../src/wording/index.js';
import { PRINT_LANGUAGES, type PrintWords } from '../words/index.js';
import { themeSchema, type ThemeData } from './schema.js';

/**
 * Everything about a piece that is a matter of taste: its colours, hatches and words, resolved and checked.
 * @experimental
 */
export interface Style {
  readonly colours: LadderTheme;
  readonly hatches: LayerHatches;
  readonly words: Words;
  readonly print: PrintWords;
  readonly ladder: LadderWords;
}

/**
 * Makes a style of a theme; what the theme leaves out is ours.
 * @experimental
 * @param data a theme, e.g. read from a file
 * @param language instead of the theme's own
 * @throws BarwiseError `bad-option` with the place in the theme and what is wrong there
 */
export function styleOf(data: unknown = {}, language?: Language): Style {
  const theme = checkTheme(data);
  const tag = language ?? theme.language ?? 'en';
  const { print: printed, ...worded } = theme.words ?? {};
  const words = overlay(wordsOf(tag), worded);
  const hatches = { ...(theme.inkSaving === true ? INK_SAVING_HATCHES : HATCHES), ...defined(theme.hatches) };
  const letters = Object.values(words.letters);
  if (new Set(letters).size < letters.length)
    throw wrong('words.letters', 'two layers have the same letter: give each its own');
  if (new Set(Object.values(hatches)).size < LAYERS.length)
    throw wrong('hatches', 'two layers would have the same hatch: give each its own');
  return {
    colours: { ...PAPER_THEME, ...defined(theme.colours) },
    hatches,
    words,
    print: overlay(PRINT_LANGUAGES[tag], printed),
    ladder: ladderWords(words),
  };
}

function checkTheme(data: unknown): ThemeData {
  const parsed = themeSchema.safeParse(data);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw wrong(issue.path.join('.') || 'the whole', issue.message);
}

const wrong = (where: string, what: string): BarwiseError =>
  new BarwiseError('bad-option', `The theme cannot be used: at ${where}, ${what.replace(/\.$/, '')}.`);

/** A table with some of its words replaced, however deep; sentences stay. */
function overlay<T extends object>(table: T, data: unknown): T {
  if (typeof data !== 'object' || data === null || Object.keys(data).length === 0) return table;
  const out = { ...table } as Record<string, unknown>;
  for (const [name, value] of Object.entries(data)) {
    if (value === undefined) continue;
    const before = (table as Record<string, unknown>)[name];
    out[name] = typeof value === 'string' ? value : overlay(before as object, value);
  }
  return out as T;
}

function defined<T extends object>(values: T | undefined): { [K in keyof T]?: NonNullable<T[K]> } {
  const kept = Object.entries(values ?? {}).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]?: NonNullable<T[K]> };
}
