import { artifact, drawPath, setLine, type Canvas } from '../layout/canvas.js';
import { points } from '../layout/paper.js';
import { cutsOf, markSpan, type SheetPlan, type SheetSide } from '../layout/sheet.js';
import { SMALLEST_TYPE } from '../layout/type.js';

const HAIRLINE = 0.3;
/** Half of the cross where two cuts meet between cards that touch. */
const CROSS = points(2);
/** Distance of a number from the mark it belongs to. */
const BESIDE = points(1);
/** Least room below the cards for the line at the foot. */
const FOOT_ROOM = points(7);

/** Marks on the lines to cut along, numbered in the order of cutting, and a line at the foot where there is room. */
export function drawSheetMarks(canvas: Canvas, plan: SheetPlan, side: SheetSide, sheets: number): void {
  const cuts = cutsOf(plan);
  const { places, card, width, height, bleed } = plan;
  const [left, top] = [places[0].x, places[0].y];
  const size = SMALLEST_TYPE;
  let d = bleed === 0 ? crosses(cuts) : '';
  const numbers: { readonly text: string; readonly x: number; readonly y: number; readonly anchor: 'start' | 'end' }[] =
    [];
  for (const { direction, at, number } of cuts) {
    const across = direction === 'across';
    const [from, to] = markSpan(across ? left : top, bleed);
    d += across
      ? `M${from} ${at}H${to}M${width - from} ${at}H${width - to}`
      : `M${at} ${from}V${to}M${at} ${height - from}V${height - to}`;
    // At the inner end of a mark, where every printer reaches, and on the side of it that lies on the sheet.
    const above = at - BESIDE > size;
    const right = at + BESIDE + 2 * size < width;
    const place = across
      ? ({ x: to, y: above ? at - BESIDE : at + BESIDE + size * 0.7, anchor: 'end' } as const)
      : ({ x: right ? at + BESIDE : at - BESIDE, y: to, anchor: right ? 'start' : 'end' } as const);
    if (side.side === 'front') numbers.push({ text: `${number}`, ...place });
  }
  artifact(canvas, 'Page', () => {
    drawPath(canvas, d, { stroke: 'ink', width: HAIRLINE });
    for (const { text, x, y, anchor } of numbers) setLine(canvas, text, x, y, { size, anchor, ink: 'muted' });
    if (height - (places.at(-1)!.y + card.height) < FOOT_ROOM) return;
    const { sheet } = canvas.style.print;
    const edge = plan.turn === 'long' ? sheet.longEdge : sheet.shortEdge;
    const line = sheet.foot(side.sheet + 1, sheets, side.side === 'front' ? sheet.front : sheet.back, edge);
    // Between the marks of the first column.
    if (canvas.surface.type.measure(line, size, false) > card.width - 2 * BESIDE) return;
    setLine(canvas, line, left + BESIDE, height - points(5), { size, ink: 'muted' });
  });
}

/** A cross wherever two cuts meet. */
function crosses(cuts: ReturnType<typeof cutsOf>): string {
  const across = cuts.filter((c) => c.direction === 'across');
  return cuts
    .filter((c) => c.direction === 'down')
    .flatMap(({ at: x }) => across.map(({ at: y }) => `M${x - CROSS} ${y}H${x + CROSS}M${x} ${y - CROSS}V${y + CROSS}`))
    .join('');
}
