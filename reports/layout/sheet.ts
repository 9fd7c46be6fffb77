import { artifact, type Canvas } from './canvas.js';
import { A4_SHEET, backPlace, cardPlaces, CARD_PAPERS, points } from './paper.js';

/** What lies where on one side of a sheet: index of a card and of its page, by place. */
export interface SheetSide {
  readonly places: readonly ({ readonly card: number; readonly page: number } | null)[];
}

/**
 * Deals the pages of cards out to sheets of four, two pages a leaf: fronts on one side, backs behind them when the
 * sheet is turned about its long edge.
 * @param pageCounts pages of each card, in order
 */
export function imposeCards(pageCounts: readonly number[]): readonly SheetSide[] {
  const leaves = pageCounts.flatMap((count, card) =>
    Array.from({ length: Math.ceil(count / 2) }, (_, i) => ({
      card,
      front: 2 * i,
      back: 2 * i + 1 < count ? 2 * i + 1 : null,
    })),
  );
  const sides: SheetSide[] = [];
  for (let from = 0; from < leaves.length; from += 4) {
    const sheet = leaves.slice(from, from + 4);
    const front = [0, 1, 2, 3].map((p) =>
      sheet[p] === undefined ? null : { card: sheet[p].card, page: sheet[p].front },
    );
    const back = [0, 1, 2, 3].map((p) => {
      const leaf = sheet[backPlace(p)];
      return leaf === undefined || leaf.back === null ? null : { card: leaf.card, page: leaf.back };
    });
    sides.push({ places: front });
    if (back.some((b) => b !== null)) sides.push({ places: back });
  }
  return sides;
}

/** Short marks at the edge of the sheet and a cross in the middle, on the lines to cut along. */
export function drawCropMarks(canvas: Canvas): void {
  const { doc } = canvas.piece;
  const places = cardPlaces();
  const { width, height } = CARD_PAPERS.A6;
  const xs = [width];
  const ys = [places[0].y, places[2].y, places[2].y + height];
  const mark = points(4);
  artifact(canvas, 'Page', () => {
    for (const x of xs) {
      doc
        .moveTo(x, 0)
        .lineTo(x, mark)
        .moveTo(x, A4_SHEET.height - mark)
        .lineTo(x, A4_SHEET.height);
      doc.moveTo(x, ys[1] - mark / 2).lineTo(x, ys[1] + mark / 2);
    }
    for (const y of ys) {
      doc
        .moveTo(0, y)
        .lineTo(mark, y)
        .moveTo(A4_SHEET.width - mark, y)
        .lineTo(A4_SHEET.width, y);
    }
    doc.moveTo(width - mark / 2, ys[1]).lineTo(width + mark / 2, ys[1]);
    doc.lineWidth(0.3).undash().stroke(canvas.theme.ink);
  });
}
