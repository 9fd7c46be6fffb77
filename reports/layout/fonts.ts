import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { BarwiseError } from '../../src/index.js';

/** A font file that covers part of the characters of a face. */
export interface FontPart {
  readonly name: string;
  readonly data: Buffer;
  readonly has: (codePoint: number) => boolean;
}

/** The faces of the printed pieces: Atkinson Hyperlegible, Braille Institute, SIL Open Font License 1.1. */
export interface Faces {
  readonly regular: readonly FontPart[];
  readonly bold: readonly FontPart[];
}

const PACKAGE = '@fontsource/atkinson-hyperlegible';
const SUBSETS = ['latin', 'latin-ext'] as const;

/** Loads a package that only printing needs. Throws BarwiseError `missing-package` with the command that brings it. */
export async function loadOptional<T>(name: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (cause) {
    const message = `Printing needs the package ${name}, which is not installed: run npm install ${name}`;
    throw new BarwiseError('missing-package', `${message} and try again.`, { cause });
  }
}

let loaded: Promise<Faces> | undefined;

/** The faces, read once in the life of the process. */
export function loadFaces(): Promise<Faces> {
  loaded ??= readFaces();
  loaded.catch(() => (loaded = undefined));
  return loaded;
}

async function readFaces(): Promise<Faces> {
  const fontkit = await loadOptional('fontkit', () => import('fontkit'));
  const require = createRequire(import.meta.url);
  const part = async (subset: string, weight: number): Promise<FontPart> => {
    const file = `atkinson-hyperlegible-${subset}-${weight}-normal.woff`;
    const data = await loadOptional(PACKAGE, () => readFile(require.resolve(`${PACKAGE}/files/${file}`)));
    const font = fontkit.create(data);
    if (!('hasGlyphForCodePoint' in font)) throw new BarwiseError('file-unreadable', `${file} is not a single font.`);
    const covered = new Set(font.characterSet);
    return { name: `${subset}-${weight}`, data, has: (code) => covered.has(code) };
  };
  const face = (weight: number) => Promise.all(SUBSETS.map((subset) => part(subset, weight)));
  const [regular, bold] = await Promise.all([face(400), face(700)]);
  return { regular, bold };
}

/** A stretch of text that one font part can set; `font` is null where no part has the character. */
export interface Run {
  readonly font: string | null;
  readonly text: string;
}

/** Splits a text by the font parts that have its characters. */
export function splitRuns(text: string, parts: readonly FontPart[]): readonly Run[] {
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

/** One line of printable text: composed characters, no line breaks, no control or formatting characters. */
export function printable(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\s\u2028\u2029]+/gu, ' ')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}]/gu, '')
    .trim();
}
