import { paperNamed, readTheme, type Paper, type ThemeData } from '../../reports/index.js';
import { BarwiseError } from '../units/index.js';
import { LANGUAGES, type Language } from '../wording/index.js';

/** The options that every printing command takes, as they come from the command line. */
export interface PrintArguments {
  readonly out: string;
  readonly paper: string;
  readonly theme?: string;
  readonly language?: string;
  readonly inkSaving?: boolean;
  readonly overwrite?: boolean;
}

/** The look of a piece: the theme from its file, its language, hollow hatches where asked for. Throws BarwiseError. */
export async function lookOf(given: PrintArguments): Promise<{ theme: ThemeData; language?: Language }> {
  const theme = given.theme === undefined ? {} : await readTheme(given.theme);
  return {
    theme: given.inkSaving === true ? { ...theme, inkSaving: true } : theme,
    ...(given.language === undefined ? {} : { language: languageOf(given.language) }),
  };
}

function languageOf(name: string): Language {
  const tag = name.toLowerCase();
  if (Object.hasOwn(LANGUAGES, tag)) return tag as Language;
  throw wrong('--language', name, Object.keys(LANGUAGES));
}

/** A paper by its name. Throws BarwiseError `bad-option` with the papers there are. */
export function paperOf<T extends string>(option: string, name: string, papers: Readonly<Record<T, Paper>>): T {
  const paper = paperNamed(name, papers);
  if (paper !== null) return paper;
  throw wrong(option, name, Object.keys(papers));
}

/** One of a few names. Throws BarwiseError `bad-option`. */
export function choice<T extends string>(option: string, given: string, known: readonly T[]): T {
  const found = known.find((name) => name === given.toLowerCase());
  if (found !== undefined) return found;
  throw wrong(option, given, known);
}

function wrong(option: string, given: string, known: readonly string[]): BarwiseError {
  return new BarwiseError('bad-option', `${option} does not take "${given}": give ${known.join(', ')}.`);
}
