import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Font } from 'fontkit';
import { BarwiseError } from '../../src/index.js';

/** A font file that covers part of the characters of a face. */
export interface FontPart {
  readonly name: string;
  readonly data: Buffer;
  readonly has: (codePoint: number) => boolean;
  readonly font: Font;
}

/** The files of one font, and a face: the fonts that may set it, best first. */
export type FontFamily = readonly FontPart[];
export type Face = readonly FontFamily[];

export interface Faces {
  readonly regular: Face;
  readonly bold: Face;
}

interface FamilySource {
  readonly id: string;
  readonly subsets: readonly string[];
  /** Goes without saying when it is not installed. */
  readonly optional?: boolean;
}

/**
 * The fonts of the printed pieces, all under the SIL Open Font License 1.1: Atkinson Hyperlegible (Braille Institute);
 * Noto Sans for what it has not got, Greek, Cyrillic and Vietnamese; Noto Sans JP where somebody has installed it.
 */
const FAMILIES: readonly FamilySource[] = [
  { id: 'atkinson-hyperlegible', subsets: ['latin', 'latin-ext'] },
  {
    id: 'noto-sans',
    subsets: ['latin', 'latin-ext', 'vietnamese', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext'],
  },
  { id: 'noto-sans-jp', subsets: ['latin', 'japanese'], optional: true },
];

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
  const part = async ({ id, optional }: FamilySource, subset: string, weight: number): Promise<FontPart | null> => {
    const file = `@fontsource/${id}/files/${id}-${subset}-${weight}-normal.woff`;
    const read = async () => readFile(require.resolve(file));
    const data = optional ? await read().catch(() => null) : await loadOptional(`@fontsource/${id}`, read);
    if (data === null) return null;
    const font = fontkit.create(data);
    if (!('hasGlyphForCodePoint' in font)) throw new BarwiseError('file-unreadable', `${file} is not a single font.`);
    const covered = new Set(font.characterSet);
    return { name: `${id}-${subset}-${weight}`, data, font, has: (code) => covered.has(code) };
  };
  const family = async (source: FamilySource, weight: number): Promise<FontFamily> => {
    const parts = await Promise.all(source.subsets.map((subset) => part(source, subset, weight)));
    return parts.filter((p) => p !== null);
  };
  const face = async (weight: number): Promise<Face> => {
    const families = await Promise.all(FAMILIES.map((source) => family(source, weight)));
    return families.filter((parts) => parts.length > 0);
  };
  const [regular, bold] = await Promise.all([face(400), face(700)]);
  return { regular, bold };
}

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

const RIGHT_TO_LEFT = /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u;

/** Whether a text has letters that run from right to left, which the typesetter cannot set. */
export const runsRightToLeft = (text: string): boolean => RIGHT_TO_LEFT.test(text);

/** One line of printable text: composed characters, no line breaks, no control or formatting characters. */
export function printable(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\s\u2028\u2029]+/gu, ' ')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}]/gu, '')
    .trim();
}
