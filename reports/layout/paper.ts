/** Points of PDF in a millimetre: 72 to the inch of 25.4 mm. */
export const POINTS_PER_MM = 72 / 25.4;

/** @example points(25.4) // 72 */
export const points = (millimetres: number): number => millimetres * POINTS_PER_MM;

/** A sheet of paper upright, in points. */
export interface Paper {
  readonly width: number;
  readonly height: number;
  /** White edge on all sides. */
  readonly margin: number;
  /** How much larger than on the smallest card everything is drawn. */
  readonly scale: number;
}

/** What a card can be printed on. Trimmed sizes of the A series, ISO 216. */
export const CARD_PAPERS = {
  A6: { width: points(105), height: points(148), margin: points(6.5), scale: 1 },
  A5: { width: points(148), height: points(210), margin: points(9), scale: 1.25 },
} as const satisfies Record<string, Paper>;

/** A sheet with four A6 cards to be cut: 2 × 148 mm leave 1 mm of its height. */
export const A4_SHEET = { width: points(210), height: points(297) } as const;

/** Upper left corners of the four cards, row by row; the spare millimetre is left half above and half below. */
export function cardPlaces(): readonly { readonly x: number; readonly y: number }[] {
  const { width, height } = CARD_PAPERS.A6;
  const top = (A4_SHEET.height - 2 * height) / 2;
  return [0, 1, 2, 3].map((i) => ({ x: (i % 2) * width, y: top + Math.floor(i / 2) * height }));
}

/** Place of a card's back when the sheet is turned about its long edge: left and right change. */
export const backPlace = (place: number): number => place ^ 1;
