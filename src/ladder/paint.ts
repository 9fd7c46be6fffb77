import type { BarCell, LadderGeometry, LadderPage, Rung, TextLine } from './geometry.js';
import { faintLine, HATCHES, hatch, rectangle, short, type Figure, type LayerHatches } from './hatch.js';
import type { Ink } from './theme.js';

export interface PathStyle {
  readonly fill?: Ink;
  readonly stroke?: Ink;
  readonly width?: number;
  readonly round?: boolean;
  readonly dash?: readonly [number, number];
}

/** What draws: SVG, PDF, anything that knows paths and text. */
export interface LadderPen {
  readonly path: (d: string, style: PathStyle) => void;
  readonly text: (line: TextLine) => void;
  /** Called for every bar after everything else of its rung; a pen may lay something over it that can be pointed at. */
  readonly bar?: (cell: BarCell, rung: Rung) => void;
  /** Called before and after the drawing of a rung. */
  readonly openRung?: (rung: Rung) => void;
  readonly closeRung?: (rung: Rung) => void;
}

/** Draws one page of a ladder, its upper left corner at the pen's origin. The one place that knows how a ladder looks. */
export function paintLadder(
  geometry: LadderGeometry,
  page: LadderPage,
  pen: LadderPen,
  hatches: LayerHatches = HATCHES,
): void {
  for (const line of page.ruler) pen.text(line);
  for (const rung of page.rungs) {
    pen.openRung?.(rung);
    paintRung(geometry, rung, pen, hatches);
    pen.closeRung?.(rung);
  }
  const { x, segments } = page.ruledEdge;
  const d = segments.map((s) => `M${short(x)} ${short(s.y1)}V${short(s.y2)}`).join('');
  pen.path(d, { stroke: 'ink', width: geometry.metrics.hairline * 2 });
}

/** How a stroked figure of a hatch is drawn. */
export function strokeOf({ round, dash }: Figure, width: number): PathStyle {
  return { stroke: 'ink', width, round, ...(dash && { dash }) };
}

function paintRung(geometry: LadderGeometry, rung: Rung, pen: LadderPen, hatches: LayerHatches): void {
  const { metrics, leftEdge } = geometry;
  for (const strip of rung.strips) {
    const figures =
      strip.presence === 'partly'
        ? [faintLine(strip, metrics.lane)]
        : hatch(hatches[strip.layer], strip, metrics.lane, leftEdge);
    for (const figure of figures) {
      if (figure.d === '') continue;
      if (figure.stroke === null) pen.path(figure.d, { fill: 'ink' });
      else pen.path(figure.d, strokeOf(figure, figure.stroke));
    }
  }
  paintFrame(geometry, rung, pen);
  paintNotches(geometry, rung, pen, hatches);
  paintOpenCells(geometry, rung, pen);
  paintSigns(geometry, rung, pen);
  for (const { letter, x, y } of rung.letters) {
    pen.text({ text: letter, x, y, size: metrics.text, bold: true, anchor: 'middle', role: 'ink' });
  }
  for (const line of rung.counts) pen.text(line);
  for (const line of rung.texts) pen.text(line);
  for (const cell of rung.cells) pen.bar?.(cell, rung);
}

/** Bar lines where they cross the solid hatch, which would hide them. */
function paintNotches(geometry: LadderGeometry, rung: Rung, pen: LadderPen, hatches: LayerHatches): void {
  const solid = rung.strips.filter((s) => hatches[s.layer] === 'solid' && s.presence === 'present');
  const d = solid
    .flatMap((s) =>
      rung.cells
        .filter((c) => c.groupBar !== 1 && c.x > s.x && c.x < s.x + s.width - 0.01)
        .map((c) => [c.x, s] as const),
    )
    .map(([x, s]) => `M${short(x)} ${short(s.y)}V${short(s.y + s.height)}`)
    .join('');
  if (d !== '') pen.path(d, { stroke: 'paper', width: geometry.metrics.hairline * 1.8 });
}

/** Outline, bar lines and group lines; broken lines where no beat is heard. */
function paintFrame(geometry: LadderGeometry, rung: Rung, pen: LadderPen): void {
  const { hairline, heavy, lane } = geometry.metrics;
  const over = lane * 0.3;
  const lines = { heard: '', unheard: '', groups: '' };
  for (const cell of rung.cells) {
    const end = cell.x + cell.width;
    const [top, bottom] = [short(cell.y), short(cell.y + cell.height)];
    const d =
      `M${short(cell.x)} ${top}H${short(end)}M${short(cell.x)} ${bottom}H${short(end)}` +
      `M${short(end)} ${top}V${bottom}${cell.groupBar === 1 ? '' : `M${short(cell.x)} ${top}V${bottom}`}`;
    if (cell.beatless) lines.unheard += d;
    else lines.heard += d;
    if (cell.groupBar === 1)
      lines.groups += `M${short(cell.x)} ${short(cell.y - over)}V${short(cell.y + cell.height + over)}`;
  }
  const stroke = { stroke: 'ink', width: hairline } as const;
  if (lines.heard !== '') pen.path(lines.heard, stroke);
  if (lines.unheard !== '') pen.path(lines.unheard, { ...stroke, dash: [lane * 0.45, lane * 0.35] });
  if (lines.groups !== '') pen.path(lines.groups, { stroke: 'ink', width: heavy });
}

function paintOpenCells(geometry: LadderGeometry, rung: Rung, pen: LadderPen): void {
  const { hairline, lane } = geometry.metrics;
  const d = rung.open.map((c) => rectangle(c.x, c.y, c.width, c.height)).join('');
  if (d !== '') pen.path(d, { stroke: 'accent', width: hairline * 1.6, dash: [lane * 0.3, lane * 0.3] });
}

/** Broken ends, odd bars, the drop, and marks under the cells. */
function paintSigns(geometry: LadderGeometry, rung: Rung, pen: LadderPen): void {
  const { heavy, lane, hairline } = geometry.metrics;
  const { row } = rung;
  if (rung.brokenEnd !== null) {
    const [x, over] = [short(rung.brokenEnd), lane * 0.5];
    pen.path(`M${x} ${short(row.y - over)}V${short(row.y + row.height + over)}`, {
      stroke: 'accent',
      width: heavy * 2,
    });
  }
  const surplus = rung.cells.filter((c) => c.surplus);
  if (surplus.length > 0) {
    const [from, to] = [surplus[0].x, surplus.at(-1)!.x + surplus.at(-1)!.width];
    const y = short(row.y - lane * 0.5);
    pen.path(`M${short(from)} ${y}H${short(to)}`, { stroke: 'accent', width: heavy });
  }
  for (const cell of rung.cells.filter((c) => c.oddBeats && !c.hanging)) {
    const ticks = cell.beatTicks
      .map((x) => `M${short(x)} ${short(row.y - lane * 0.55)}V${short(row.y + row.height)}`)
      .join('');
    if (ticks !== '') pen.path(ticks, { stroke: 'accent', width: hairline * 1.6 });
    pen.path(`M${short(cell.x)} ${short(row.y - lane * 0.55)}H${short(cell.x + cell.width)}`, {
      stroke: 'accent',
      width: heavy,
    });
  }
  if (rung.dropLands) {
    const [x, tip, half] = [geometry.leftEdge, row.y - lane * 0.35, lane * 0.75];
    pen.path(`M${short(x - half)} ${short(tip - lane)}H${short(x + half)}L${short(x)} ${short(tip)}Z`, { fill: 'ink' });
  }
  for (const mark of rung.marks) {
    if (mark.x1 === mark.x2) {
      const [x, y, half] = [mark.x1, mark.y, lane * 0.4];
      pen.path(`M${short(x)} ${short(y)}L${short(x + half)} ${short(y + half * 1.6)}H${short(x - half)}Z`, {
        fill: 'accent',
      });
    } else {
      const y = short(mark.y + lane * 0.2);
      pen.path(`M${short(mark.x1)} ${y}H${short(mark.x2)}`, { stroke: 'accent', width: heavy });
    }
  }
}
