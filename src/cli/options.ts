import { BarwiseError } from '../units/index.js';
import { LANGUAGES, type Language } from '../wording/index.js';

/** A whole number or a decimal from the command line. Throws BarwiseError `bad-option`. */
export function numberOption(text: string | undefined, option: string, low: number, high: number): number | undefined {
  if (text === undefined) return undefined;
  const value = /^\s*-?\d+(\.\d+)?\s*$/.test(text) ? Number(text) : NaN;
  if (value >= low && value <= high) return value;
  throw new BarwiseError('bad-option', `${option} does not take "${text}": give a number from ${low} to ${high}.`);
}

/** One of a closed list of words. Throws BarwiseError `bad-option`. */
export function wordOption<T extends string>(text: string, option: string, known: readonly T[]): T {
  const found = known.find((word) => word === text.toLowerCase());
  if (found !== undefined) return found;
  throw notTaken(option, text, known);
}

/** A language by its tag, English where none is given. Throws BarwiseError `bad-option` with the languages there are. */
export function languageOption(text: string | undefined, option = '--language'): Language {
  const tag = (text ?? 'en').toLowerCase();
  if (Object.hasOwn(LANGUAGES, tag)) return tag as Language;
  const known = Object.entries(LANGUAGES).map(([name, words]) => `${name} (${words.name})`);
  throw notTaken(option, text ?? '', known);
}

/** The error for an option's value that is not one of those there are. */
export function notTaken(option: string, given: string, known: readonly string[]): BarwiseError {
  return new BarwiseError(
    'bad-option',
    `${option} does not take "${given}": give ${known.join(known.length === 2 ? ' or ' : ', ')}.`,
  );
}
