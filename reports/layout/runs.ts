import { visualPieces } from './direction.js';
import type { Face, FontFamily } from './fonts.js';

/** A stretch of text that one font part can set; `font` is null where no part has the character. */
export interface Run {
  readonly font: string | null;
  readonly text: string;
}

const LETTER = /\p{L}/u;

/**
 * Splits a text by the font parts that have its characters. The font that has the most of its letters sets as much of
 * it as it can, so that a word is not pieced together from several.
 */
export function splitRuns(text: string, face: Face): readonly Run[] {
  const parts = orderFor(text, face).flat();
  const runs: { font: string | null; text: string }[] = [];
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const last = runs.at(-1);
    const keep = last !== undefined && parts.find((p) => p.name === last.font)?.has(code) === true;
    const font = keep ? last.font : (parts.find((p) => p.has(code))?.name ?? null);
    if (last?.font === font && font !== null) last.text += character;
    else runs.push({ font, text: character });
  }
  return runs;
}

function orderFor(text: string, face: Face): Face {
  const first = face[0];
  const codes = [...text].filter((c) => LETTER.test(c)).map((c) => c.codePointAt(0)!);
  const missing = (family: FontFamily) => codes.filter((code) => !family.some((p) => p.has(code))).length;
  if (first === undefined || missing(first) === 0) return face;
  const counted = face.map((family) => ({ family, missing: missing(family) }));
  // The sort is stable: among equals the face's own order stays.
  return counted.sort((a, b) => a.missing - b.missing).map((c) => c.family);
}

/**
 * The runs of a line from left to right as they stand on paper: what is read from right to left comes word by word, its
 * letters still in the order of reading, which is what a font wants to join them.
 */
export function lineRuns(text: string, face: Face): readonly Run[] {
  return visualPieces(text).flatMap(({ text: piece, rightToLeft }) => {
    const runs = splitRuns(piece, face);
    return rightToLeft ? runs.toReversed() : runs;
  });
}
