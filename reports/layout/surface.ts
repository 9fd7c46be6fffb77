import type { PathStyle, LadderTheme } from '../../src/ladder/index.js';
import { paintOperators } from './operators.js';
import type { Setting, Typesetter } from './typesetter.js';

/** A place in the structure tree of a document; a picture has none and passes it on untouched. */
export type StructNode = PDFKit.PDFStructureElement | null;

export interface TagOptions {
  /** Text for those who do not see it. */
  readonly alt?: string;
  /** The text meant, where signs had to stand for it. */
  readonly actual?: string;
  /** Left, top, right, bottom on the page. */
  readonly box?: readonly [number, number, number, number];
  /** What a table's head cell heads. */
  readonly scope?: 'Column' | 'Row';
}

/** What pieces are drawn on: a page of PDF, or a picture. All lengths are in points, y grows downwards. */
export interface Surface {
  readonly type: Typesetter;
  /** Draws something under a tag of the structure tree, e.g. `H1`, `P`, `Figure` (ISO 32000-1, 14.8.4). */
  readonly element: (parent: StructNode, tag: string, options: TagOptions, draw: () => void) => void;
  /** An element that holds others; it is closed when all are in it. */
  readonly open: (parent: StructNode, tag: string, title?: string) => StructNode;
  readonly close: (node: StructNode) => void;
  /** Draws something that says nothing by itself: rules, running heads, crop marks. */
  readonly artifact: (kind: 'Layout' | 'Pagination' | 'Page', draw: () => void) => void;
  /** Path data (SVG 1.1 commands M, L, H, V, Z), its origin at (`x`, `y`). */
  readonly path: (d: string, style: PathStyle, colours: LadderTheme, x: number, y: number) => void;
  readonly text: (text: string, x: number, y: number, setting: Setting) => void;
}

/** A page of PDF. */
export function pdfSurface(doc: PDFKit.PDFDocument, type: Typesetter): Surface {
  const open = (parent: StructNode, tag: string, title?: string): StructNode => {
    const node = doc.struct(tag, title === undefined ? {} : { title });
    parent?.add(node);
    return node;
  };
  return {
    type,
    open,
    close: (node) => node?.end(),
    element(parent, tag, { box, ...rest }, draw) {
      const options = { ...rest, ...(box && { bbox: [...box] as [number, number, number, number] }) };
      parent?.add(doc.struct(tag, options, [draw]));
    },
    artifact(kind, draw) {
      doc.markContent('Artifact', { type: kind });
      draw();
      doc.endMarkedContent();
    },
    path: (d, style, colours, x, y) => doc.addContent(paintOperators(d, style, colours, x, y)),
    text: (text, x, y, setting) => type.line(text, x, y, setting),
  };
}
