import type { LadderPen } from '../../src/ladder/index.js';
import type { Seconds } from '../../src/index.js';

/** A point of a curve: when its record is in the middle of its time, and its value; `null` where there is none. */
export interface CurvePoint {
  readonly at: Seconds;
  readonly value: number | null;
  /** What is wished there. */
  readonly wanted?: number | null;
}

export interface CurveBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly text: number;
}

/** Draws values over the evening: points joined by a line, the wished ones by a dashed line, and the ends of the scale. */
export function drawCurve(
  pen: LadderPen,
  points: readonly CurvePoint[],
  until: Seconds,
  box: CurveBox,
  say: (value: number) => string,
): void {
  const { x, y, width, height, text } = box;
  const known = points.flatMap((p) => [p.value, p.wanted ?? null]).filter((v) => v !== null);
  if (known.length === 0) return;
  const [least, most] = [Math.min(...known), Math.max(...known)];
  const place = (at: Seconds) => x + (until > 0 ? at / until : 0.5) * width;
  const level = (value: number) => y + height - (most > least ? (value - least) / (most - least) : 0.5) * height;
  pen.path(`M${x} ${y}V${y + height}H${x + width}`, { stroke: 'muted', width: 0.4 });
  for (const value of most > least ? [most, least] : [most]) {
    const [at, size] = [level(value) + text * 0.35, text];
    pen.text({ text: say(value), x: x - text * 0.5, y: at, size, bold: false, anchor: 'end', role: 'muted' });
  }
  const path = (pick: (p: CurvePoint) => number | null): string => {
    const drawn = points.flatMap((p) => {
      const value = pick(p);
      return value === null ? [] : [`${place(p.at).toFixed(2)} ${level(value).toFixed(2)}`];
    });
    return drawn.length < 2 ? '' : `M${drawn.join('L')}`;
  };
  const [measured, wished] = [path((p) => p.value), path((p) => p.wanted ?? null)];
  if (wished !== '') pen.path(wished, { stroke: 'ink', width: 0.8, dash: [3, 2.5] });
  if (measured !== '') pen.path(measured, { stroke: 'ink', width: 1.2 });
  for (const { at, value } of points) {
    if (value === null) continue;
    const [cx, cy, r] = [place(at), level(value), 2];
    pen.path(`M${cx - r} ${cy}L${cx} ${cy - r}L${cx + r} ${cy}L${cx} ${cy + r}Z`, { fill: 'ink' });
  }
}
