import type { Ink } from '../../src/ladder/index.js';
import type { Style } from '../theme/index.js';
import type { PieceDocument } from './document.js';
import type { Setting } from './typesetter.js';

/** A page, or the part of a sheet that will be cut out, with its own origin and its place in the structure tree. */
export interface Canvas {
  readonly piece: PieceDocument;
  readonly style: Style;
  /** The structure element that everything on it belongs to. */
  readonly section: PDFKit.PDFStructureElement;
  /** Upper left corner on the sheet. */
  readonly x: number;
  readonly y: number;
}

export interface TagOptions {
  /** Text for those who do not see it. */
  readonly alt?: string;
  /** The text meant, where signs had to stand for it. */
  readonly actual?: string;
  /** Left, top, right, bottom on the canvas. */
  readonly box?: readonly [number, number, number, number];
}

/** Draws something under a tag of the structure tree, e.g. `H1`, `P`, `Figure` (ISO 32000-1, 14.8.4). */
export function tagged(canvas: Canvas, tag: string, options: TagOptions, draw: () => void): void {
  const { doc } = canvas.piece;
  const { box, ...rest } = options;
  const bbox = box && [box[0] + canvas.x, box[1] + canvas.y, box[2] + canvas.x, box[3] + canvas.y];
  const element = doc.struct(tag, { ...rest, ...(bbox && { bbox: bbox as [number, number, number, number] }) }, [draw]);
  canvas.section.add(element);
}

/** Draws something that says nothing by itself: rules, running heads, crop marks. */
export function artifact({ piece: { doc } }: Canvas, kind: 'Layout' | 'Pagination' | 'Page', draw: () => void): void {
  doc.markContent('Artifact', { type: kind });
  draw();
  doc.endMarkedContent();
}

/** A line of type; `x` and the baseline `y` count from the canvas's corner. */
export function setLine(
  canvas: Canvas,
  text: string,
  x: number,
  y: number,
  setting: Omit<Setting, 'colour'> & { readonly ink?: 'ink' | 'muted' | 'accent' },
): void {
  const { ink = 'ink', ...rest } = setting;
  canvas.piece.type.line(text, canvas.x + x, canvas.y + y, { ...rest, colour: canvas.style.colours[ink] });
}

/** Paints the paper where its colour is not white, as far beyond the trimmed edge as the bleed goes. */
export function paintPaper(
  canvas: Canvas,
  { width, height }: { readonly width: number; readonly height: number },
  bleed: number,
): void {
  const { paper } = canvas.style.colours;
  if (paper.toLowerCase() === '#ffffff') return;
  artifact(canvas, 'Page', () => {
    canvas.piece.doc.rect(canvas.x - bleed, canvas.y - bleed, width + 2 * bleed, height + 2 * bleed).fill(paper);
  });
}

/** A horizontal rule. */
export function rule(canvas: Canvas, x1: number, x2: number, y: number, width: number, ink: Ink = 'ink'): void {
  const { doc } = canvas.piece;
  artifact(canvas, 'Layout', () => {
    doc.moveTo(canvas.x + x1, canvas.y + y).lineTo(canvas.x + x2, canvas.y + y);
    doc.lineWidth(width).undash().stroke(canvas.style.colours[ink]);
  });
}
