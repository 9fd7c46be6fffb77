import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Font } from 'fontkit';
import { BarwiseError } from '../../src/index.js';
import { unpackWoff } from './woff.js';

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
 * Noto Sans for what it has not got, Greek, Cyrillic and Vietnamese; Noto Sans Hebrew; Vazirmatn for
 * Arabic script, because it has a glyph of its own for every letter, by which the letters are found again in a PDF; Noto
 * Sans JP where somebody has installed it.
 */
const FAMILIES: readonly FamilySource[] = [
  { id: 'atkinson-hyperlegible', subsets: ['latin', 'latin-ext'] },
  {
    id: 'noto-sans',
    subsets: ['latin', 'latin-ext', 'vietnamese', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext'],
  },
  { id: 'noto-sans-hebrew', subsets: ['hebrew'] },
  { id: 'vazirmatn', subsets: ['arabic'] },
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
    const read = async () => unpackWoff(await readFile(require.resolve(file)));
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
