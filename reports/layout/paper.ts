/** Points of PDF in a millimetre: 72 to the inch of 25.4 mm. */
export const POINTS_PER_MM = 72 / 25.4;

/** @example points(25.4) // 72 */
export const points = (millimetres: number): number => millimetres * POINTS_PER_MM;

/** Points in so many inches. */
const inches = (n: number): number => n * 72;

/** A sheet of paper, in points. @public */
export interface Paper {
  readonly width: number;
  readonly height: number;
  /** White edge on all sides. */
  readonly margin: number;
  /** How much larger than on the smallest card everything is drawn. */
  readonly scale: number;
}

/**
 * What a card can be printed on, upright: the trimmed sizes A6 and A5 (ISO 216), index cards of 3 × 5 and 4 × 6 inches,
 * and a square that goes into the sleeve of a 12-inch record.
 * @public
 */
export const CARD_PAPERS = {
  A6: { width: points(105), height: points(148), margin: points(6.5), scale: 1 },
  '3x5in': { width: inches(3), height: inches(5), margin: points(5), scale: 1 },
  '4x6in': { width: inches(4), height: inches(6), margin: points(6.5), scale: 1 },
  A5: { width: points(148), height: points(210), margin: points(9), scale: 1.25 },
  '12in': { width: inches(12), height: inches(12), margin: points(15), scale: 2.1 },
} as const satisfies Record<string, Paper>;
/** A name of `CARD_PAPERS`. @public */
export type CardPaper = keyof typeof CARD_PAPERS;

/** Sheets that cards are laid out on to be cut: A4 (ISO 216) and letter (ANSI/ASME Y14.1, size A), upright. @public */
export const SHEET_PAPERS = {
  A4: { width: points(210), height: points(297), margin: points(14), scale: 1.2 },
  Letter: { width: inches(8.5), height: inches(11), margin: points(14), scale: 1.2 },
} as const satisfies Record<string, Paper>;
/** A name of `SHEET_PAPERS`. @public */
export type SheetPaper = keyof typeof SHEET_PAPERS;

/** What a lesson diagram is made on, lying: A4, A3, letter, and a slide of 16 to 9 (13⅓ × 7½ inches). @public */
export const LESSON_PAPERS = {
  A4: { width: points(297), height: points(210), margin: points(11), scale: 1.15 },
  A3: { width: points(420), height: points(297), margin: points(15), scale: 1.65 },
  Letter: { width: inches(11), height: inches(8.5), margin: points(11), scale: 1.15 },
  '16:9': { width: inches(40 / 3), height: inches(7.5), margin: points(11), scale: 1.45 },
} as const satisfies Record<string, Paper>;
/** A name of `LESSON_PAPERS`. @public */
export type LessonPaper = keyof typeof LESSON_PAPERS;

/** What a worksheet is printed on, upright. @public */
export const WORKSHEET_PAPERS = {
  A4: { width: points(210), height: points(297), margin: points(16), scale: 1.3 },
  Letter: { width: inches(8.5), height: inches(11), margin: points(16), scale: 1.3 },
} as const satisfies Record<string, Paper>;
/** A name of `WORKSHEET_PAPERS`. @public */
export type WorksheetPaper = keyof typeof WORKSHEET_PAPERS;

/** Finds a paper by its name, whatever its case; `null` where there is none of that name. @public */
export function paperNamed<T extends string>(name: string, papers: Readonly<Record<T, Paper>>): T | null {
  const wanted = name.toLowerCase().replace('×', 'x');
  return (Object.keys(papers) as T[]).find((paper) => paper.toLowerCase() === wanted) ?? null;
}
