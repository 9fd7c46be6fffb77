import { printable } from '../units/index.js';

/**
 * An expression of vega that gives each value of an axis its label. Labels come from tags and may hold anything: quotes,
 * line ends that end a string in the middle, code.
 * @param labels by value
 */
export function labelOf(labels: Readonly<Record<string, string>>): string {
  const plain = Object.fromEntries(Object.entries(labels).map(([value, label]) => [value, printable(label)]));
  // Beyond ASCII everything is written by number: what ends a string differs from parser to parser.
  const text = JSON.stringify(plain).replace(
    /[^ -~]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return `${text}[datum.value]`;
}
