import { paperNamed, readTheme, type Paper, type ThemeData } from '../../reports/index.js';
import type { Language } from '../wording/index.js';
import { languageOption, notTaken } from './options.js';

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
    ...(given.language === undefined ? {} : { language: languageOption(given.language) }),
  };
}

/** A paper by its name. Throws BarwiseError `bad-option` with the papers there are. */
export function paperOf<T extends string>(option: string, name: string, papers: Readonly<Record<T, Paper>>): T {
  const paper = paperNamed(name, papers);
  if (paper !== null) return paper;
  throw notTaken(option, name, Object.keys(papers));
}
