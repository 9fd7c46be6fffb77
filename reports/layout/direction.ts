import { createRequire } from 'node:module';
import type { Bidi } from 'bidi-js';

// Its types describe the module for bundlers; what Node loads is the function itself.
const bidi = (createRequire(import.meta.url)('bidi-js') as () => Bidi)();

/** Scripts from right to left that a font is at hand for. */
const SET = /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Common}\p{Script=Inherited}]/u;
/** Invisible marks that say in which direction a line is read, whatever it starts with (Unicode Standard Annex 9, 2.6). */
const READ = { fromLeft: '\u200e', fromRight: '\u200f' } as const;
const MARKS = /[\u200e\u200f]/gu;

const fromRight = (character: string): boolean => ['R', 'AL'].includes(bidi.getBidiCharTypeName(character));

/** Whether a text has letters that run from right to left. */
export const runsRightToLeft = (text: string): boolean => [...text].some(fromRight);

/** Whether a text has letters that run from right to left in a script that no font is at hand for. */
export const cannotBeSet = (text: string): boolean => [...text].some((c) => fromRight(c) && !SET.test(c));

/** A stretch of a line; its letters are in the order of reading. */
export interface LinePiece {
  readonly text: string;
  readonly rightToLeft: boolean;
}

/**
 * A line in the pieces that it is set in, from left to right: words where it is read from right to left, else as much as
 * goes together. The order is that of the Unicode bidirectional algorithm (Unicode Standard Annex 9).
 * @example visualPieces('to שלום עולם!') // 'to ', 'עולם', ' ', 'שלום', '!'
 */
export function visualPieces(line: string): readonly LinePiece[] {
  if (!runsRightToLeft(line)) return [{ text: line.replace(MARKS, ''), rightToLeft: false }];
  const { levels } = bidi.getEmbeddingLevels(line);
  const stretches: { text: string; level: number }[] = [];
  [...line].reduce((at, character) => {
    const level = levels[at];
    const last = stretches.at(-1);
    const turned = level % 2 === 1 ? (bidi.getMirroredCharacter(character) ?? character) : character;
    if (last !== undefined && last.level === level) last.text += turned;
    else stretches.push({ text: turned, level });
    return at + character.length;
  }, 0);
  return inOrder(stretches).flatMap(({ text, level }) => {
    const bare = text.replace(MARKS, '');
    return level % 2 === 1 ? wordsFromRight(bare) : bare === '' ? [] : [{ text: bare, rightToLeft: false }];
  });
}

/** Rule L2: from the highest level to the lowest odd one, what stands together on it or above is turned round. */
function inOrder<T extends { readonly level: number }>(stretches: readonly T[]): readonly T[] {
  const order = [...stretches];
  for (let level = Math.max(...order.map((s) => s.level)); level >= 1; level--) {
    for (let from = 0; from < order.length; from++) {
      let to = from;
      while (to < order.length && order[to].level >= level) to++;
      if (to > from) order.splice(from, to - from, ...order.slice(from, to).reverse());
      from = to;
    }
  }
  return order;
}

/** The last word first. What has no letters a font would not turn round: its characters come one by one. */
function wordsFromRight(text: string): readonly LinePiece[] {
  const words = text.match(/\s|[^\s\p{L}\p{M}\u200c\u200d]|[\p{L}\p{M}\u200c\u200d]+/gu) ?? [];
  return words.reverse().map((word) => ({ text: word, rightToLeft: true }));
}

/** Lines that were broken from one text are read in the direction of the whole, whatever each starts with. */
export function readAsWhole(whole: string, lines: readonly string[]): readonly string[] {
  if (lines.length < 2 || !runsRightToLeft(whole)) return lines;
  const [{ level }] = bidi.getEmbeddingLevels(whole).paragraphs;
  const mark = level % 2 === 1 ? READ.fromRight : READ.fromLeft;
  return lines.map((line) => mark + line);
}
