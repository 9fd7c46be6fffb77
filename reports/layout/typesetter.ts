import type { Faces } from './fonts.js';
import { runsRightToLeft } from './direction.js';
import { lineRuns, type Run } from './runs.js';

type Pdf = PDFKit.PDFDocument;

export interface Setting {
  readonly size: number;
  readonly bold?: boolean;
  /** `#rrggbb`. */
  readonly colour: string;
  readonly anchor?: 'start' | 'middle' | 'end';
}

/** Sets lines of type into a PDF and measures them with the fonts that will be embedded. */
export interface Typesetter {
  readonly measure: (text: string, size: number, bold: boolean) => number;
  /** Sets one line with its baseline at `y`. */
  readonly line: (text: string, x: number, y: number, setting: Setting) => void;
  /** Characters of a text that no font has: each is set as an empty box. */
  readonly unprintable: (text: string) => readonly string[];
}

/** Width of the box that stands for a character without a glyph, and its height, as shares of the size. */
const BOX = { width: 0.6, height: 0.668, inset: 0.06 } as const;

/** Most entries of a cache. */
const CACHED = 4000;

function remember<T>(cache: Map<string, T>, key: string, value: T): void {
  if (cache.size >= CACHED) cache.clear();
  cache.set(key, value);
}

export function createTypesetter(doc: Pdf, faces: Faces): Typesetter {
  for (const part of [...faces.regular, ...faces.bold].flat()) doc.registerFont(part.name, part.data);
  // Caches of what the same words need again and again; they are emptied before they grow large.
  const widths = new Map<string, number>();
  const lines = new Map<string, readonly Run[]>();

  const runWidth = (font: string | null, text: string, size: number): number => {
    if (font === null) return BOX.width * size;
    const key = `${font} ${text}`;
    let em = widths.get(key);
    if (em === undefined) {
      em = doc.font(font).fontSize(1000).widthOfString(text) / 1000;
      remember(widths, key, em);
    }
    return em * size;
  };
  const runsOf = (text: string, bold: boolean): readonly Run[] => {
    const key = `${bold ? 'b' : 'r'}${text}`;
    const known = lines.get(key);
    if (known !== undefined) return known;
    const runs = lineRuns(text, bold ? faces.bold : faces.regular);
    remember(lines, key, runs);
    return runs;
  };
  const measure = (text: string, size: number, bold: boolean): number =>
    runsOf(text, bold).reduce((sum, run) => sum + runWidth(run.font, run.text, size), 0);

  const line = (text: string, x: number, y: number, setting: Setting): void => {
    const { size, bold = false, anchor = 'start', colour } = setting;
    const width = measure(text, size, bold);
    let at = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    // The space at the end keeps lines apart for those who listen to the page or copy from it.
    const runs = runsRightToLeft(text) ? [...runsOf(text, bold), ...runsOf(' ', bold)] : runsOf(`${text} `, bold);
    for (const run of runs) {
      const advance = runWidth(run.font, run.text, size);
      if (run.font === null) {
        const inset = BOX.inset * size;
        doc.rect(at + inset, y - BOX.height * size, advance - 2 * inset, BOX.height * size);
        doc
          .lineWidth(size * 0.05)
          .undash()
          .stroke(colour);
      } else {
        doc.font(run.font).fontSize(size).fillColor(colour);
        doc.text(run.text, at, y, { lineBreak: false, baseline: 'alphabetic' });
      }
      at += advance;
    }
  };
  const unprintable = (text: string) => [
    ...new Set(runsOf(text, false).flatMap((run) => (run.font === null ? [run.text] : []))),
  ];
  return { measure, line, unprintable };
}
