import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A piece of text as it stands on a page; lengths in points, `y` from the top to the baseline. */
export interface PdfText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

export interface PdfNode {
  readonly role: string;
  readonly alt: string | undefined;
  readonly children: readonly PdfNode[];
}

export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly PdfText[];
  readonly tree: PdfNode;
  readonly images: number;
  /** Colours that fill or stroke anything, `#rrggbb`. */
  readonly colours: ReadonlySet<string>;
}

export interface PdfContent {
  readonly pages: readonly PdfPage[];
  readonly text: string;
  readonly info: Readonly<Record<string, unknown>>;
  readonly language: string | null;
  readonly bookmarks: readonly string[];
  readonly tagged: boolean;
}

/** Reads a PDF back with pdf.js. */
export async function readPdf(bytes: Uint8Array): Promise<PdfContent> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false }).promise;
  const pages: PdfPage[] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const texts: PdfText[] = [];
    for (const item of items) {
      if (!('str' in item) || item.str.trim() === '') continue;
      const [, , c, d, x, y] = item.transform as number[];
      const next = { text: item.str, x, y: height - y, width: item.width, size: Math.hypot(c, d) };
      const last = texts.at(-1);
      if (last !== undefined && continues(last, next)) {
        texts[texts.length - 1] = { ...last, text: last.text + next.text, width: next.x + next.width - last.x };
      } else {
        texts.push(next);
      }
    }
    const operators = await page.getOperatorList();
    const colours = new Set<string>();
    let images = 0;
    operators.fnArray.forEach((operator, i) => {
      if (operator === OPS.setFillRGBColor || operator === OPS.setStrokeRGBColor) {
        colours.add(hex(operators.argsArray[i] as ArrayLike<number> | string[]));
      }
      if (operator === OPS.paintImageXObject || operator === OPS.paintInlineImageXObject) images++;
    });
    const tree = nodeOf((await page.getStructTree()) as RawNode | null);
    pages.push({ width, height, texts: texts.map((t) => ({ ...t, text: t.text.trim() })), tree, images, colours });
  }
  const { info } = await document.getMetadata();
  const outline = (await document.getOutline()) as { title: string }[] | null;
  const content = {
    pages,
    text: pages.flatMap((p) => p.texts.map((t) => t.text)).join('\n'),
    info: info as Record<string, unknown>,
    language: ((info as Record<string, unknown>).Language as string | null) ?? null,
    bookmarks: (outline ?? []).map((o) => o.title),
    tagged: (await document.getMarkInfo())?.Marked === true,
  };
  await document.destroy();
  return content;
}

/** Whether a piece goes on where another ends, as where the font changes inside a word. */
function continues(last: PdfText, next: PdfText): boolean {
  const gap = next.x - (last.x + last.width);
  return Math.abs(next.y - last.y) < 0.01 && next.size === last.size && Math.abs(gap) < last.size * 0.02;
}

function hex(args: ArrayLike<number> | string[]): string {
  if (typeof args[0] === 'string') return args[0];
  return `#${Array.from(args as ArrayLike<number>, (v) => v.toString(16).padStart(2, '0')).join('')}`;
}

interface RawNode {
  role?: string;
  alt?: string;
  children?: RawNode[];
}
function nodeOf(raw: RawNode | null): PdfNode {
  return { role: raw?.role ?? '', alt: raw?.alt, children: (raw?.children ?? []).filter((c) => c.role).map(nodeOf) };
}

/** Every node of a tree. */
export function nodes(tree: PdfNode): readonly PdfNode[] {
  return [tree, ...tree.children.flatMap(nodes)];
}
