import { artifact, setLine, type Canvas } from '../layout/canvas.js';
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
  const { doc } = canvas.piece;
  const { places, card, width, height, bleed } = plan;
  const [left, top] = [places[0].x, places[0].y];
  const bottom = height - (places.at(-1)!.y + card.height);
  artifact(canvas, 'Page', () => {
    for (const { direction, at, number } of cuts) {
      const [from, to] = markSpan(direction === 'across' ? left : top, bleed);
      const size = SMALLEST_TYPE;
      if (direction === 'across') {
        doc.moveTo(from, at).lineTo(to, at);
        doc.moveTo(width - from, at).lineTo(width - to, at);
      } else {
        doc.moveTo(at, from).lineTo(at, to);
        doc.moveTo(at, height - from).lineTo(at, height - to);
      }
      doc.lineWidth(HAIRLINE).undash().stroke(canvas.style.colours.ink);
      const [x, y] = direction === 'across' ? [from + BESIDE, at - BESIDE] : [at + BESIDE, from + size * 0.9];
      // Numbers stand on the front only, and not where a printer cannot reach.
      const reach = direction === 'across' ? y - size > 0 : true;
      if (side.side === 'front' && reach) setLine(canvas, `${number}`, x, y, { size, ink: 'muted' });
    }
    if (bleed === 0) drawCrosses(canvas, cuts);
    if (bottom < FOOT_ROOM) return;
    const { sheet } = canvas.style.print;
    const edge = plan.turn === 'long' ? sheet.longEdge : sheet.shortEdge;
    const line = sheet.foot(side.sheet + 1, sheets, side.side === 'front' ? sheet.front : sheet.back, edge);
    // Between the marks of the first column.
    if (canvas.piece.type.measure(line, SMALLEST_TYPE, false) > card.width - 2 * BESIDE) return;
    setLine(canvas, line, left + BESIDE, height - points(5), { size: SMALLEST_TYPE, ink: 'muted' });
  });
}

function drawCrosses(canvas: Canvas, cuts: ReturnType<typeof cutsOf>): void {
  const { doc } = canvas.piece;
  for (const { at: y } of cuts.filter((c) => c.direction === 'across')) {
    for (const { at: x } of cuts.filter((c) => c.direction === 'down')) {
      doc.moveTo(x - CROSS, y).lineTo(x + CROSS, y);
      doc.moveTo(x, y - CROSS).lineTo(x, y + CROSS);
    }
  }
  doc.lineWidth(HAIRLINE).undash().stroke(canvas.style.colours.ink);
}
