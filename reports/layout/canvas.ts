import type { Ink, LadderPen } from '../../src/ladder/index.js';
import type { Style } from '../theme/index.js';
import type { StructNode, Surface, TagOptions } from './surface.js';
import type { Setting } from './typesetter.js';

/** A page, or the part of a sheet that will be cut out, with its own origin and its place in the structure tree. */
export interface Canvas {
  readonly surface: Surface;
  readonly style: Style;
  /** The structure element that everything on it belongs to. */
  readonly section: StructNode;
  /** Upper left corner on the sheet. */
  readonly x: number;
  readonly y: number;
}

/** Draws something under a tag of the structure tree; `box` counts from the canvas's corner. */
export function tagged(canvas: Canvas, tag: string, options: TagOptions, draw: () => void): void {
  const { box, ...rest } = options;
  const { x, y } = canvas;
  const placed = box && ([box[0] + x, box[1] + y, box[2] + x, box[3] + y] as const);
  canvas.surface.element(canvas.section, tag, { ...rest, ...(placed && { box: placed }) }, draw);
}

/** Draws something that says nothing by itself: rules, running heads, crop marks. */
export function artifact(canvas: Canvas, kind: 'Layout' | 'Pagination' | 'Page', draw: () => void): void {
  canvas.surface.artifact(kind, draw);
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
  canvas.surface.text(text, canvas.x + x, canvas.y + y, { ...rest, colour: canvas.style.colours[ink] });
}

/** Paints the paper where its colour is not white, as far beyond the trimmed edge as the bleed goes. */
export function paintPaper(
  canvas: Canvas,
  { width, height }: { readonly width: number; readonly height: number },
  bleed: number,
): void {
  if (canvas.style.colours.paper.toLowerCase() === '#ffffff') return;
  const d = `M${-bleed} ${-bleed}H${width + bleed}V${height + bleed}H${-bleed}Z`;
  artifact(canvas, 'Page', () => drawPath(canvas, d, { fill: 'paper' }));
}

/** Path data drawn from the canvas's corner. */
export function drawPath(canvas: Canvas, d: string, style: Parameters<Surface['path']>[1]): void {
  canvas.surface.path(d, style, canvas.style.colours, canvas.x, canvas.y);
}

/** A horizontal rule. */
export function rule(canvas: Canvas, x1: number, x2: number, y: number, width: number, stroke: Ink = 'ink'): void {
  artifact(canvas, 'Layout', () => drawPath(canvas, `M${x1} ${y}H${x2}`, { stroke, width }));
}

/** A pen for ladders, its origin at (`x`, `y`) on the canvas. */
export function ladderPen(canvas: Canvas, x: number, y: number): LadderPen {
  const { surface, style } = canvas;
  const [left, top] = [canvas.x + x, canvas.y + y];
  return {
    path: (d, pathStyle) => surface.path(d, pathStyle, style.colours, left, top),
    text(line) {
      const { size, bold, anchor } = line;
      surface.text(line.text, left + line.x, top + line.y, { size, bold, anchor, colour: style.colours[line.role] });
    },
  };
}
