import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { loadPeer } from './peers.js';

/** Width of a text in pixels at a font size in pixels. @experimental */
export type TextMeasure = (text: string, fontSize: number, bold?: boolean) => number;

interface Font {
  readonly unitsPerEm: number;
  glyphForCodePoint(codePoint: number): { readonly id: number; readonly advanceWidth: number };
}

const FAMILY = '@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible';

/** A character that none of the font's files has is taken to be a full em wide, as an ideograph is. */
const UNKNOWN_WIDTH = 1;

let cached: Promise<TextMeasure> | undefined;

/** The widths of the drawings' typeface from the advances in its font files; loaded once. @experimental */
export function textMeasure(): Promise<TextMeasure> {
  cached ??= load();
  return cached;
}

async function load(): Promise<TextMeasure> {
  const fontkit = await loadPeer<{ create(data: Buffer): unknown }>('fontkit', 'Drawing a chart');
  const { resolve } = createRequire(import.meta.url);
  const open = async (subset: string, weight: number) =>
    fontkit.create(await readFile(resolve(`${FAMILY}-${subset}-${weight}-normal.woff`))) as Font;
  const family = (weight: number) => Promise.all([open('latin', weight), open('latin-ext', weight)]);
  const [regular, bold] = await Promise.all([family(400), family(700)]);
  return widths(regular, bold);
}

function widths(regular: readonly Font[], bold: readonly Font[]): TextMeasure {
  const known = new Map<string, number>();
  const advance = (character: string, fonts: readonly Font[]): number => {
    for (const font of fonts) {
      const glyph = font.glyphForCodePoint(character.codePointAt(0)!);
      if (glyph.id !== 0) return glyph.advanceWidth / font.unitsPerEm;
    }
    return UNKNOWN_WIDTH;
  };
  return (text, fontSize, isBold = false) => {
    let sum = 0;
    for (const character of text) {
      const key = isBold ? `b${character}` : character;
      let width = known.get(key);
      if (width === undefined) known.set(key, (width = advance(character, isBold ? bold : regular)));
      sum += width;
    }
    return sum * fontSize;
  };
}
