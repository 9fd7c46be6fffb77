import { BarwiseError } from '../../src/index.js';
import { points } from './paper.js';

/** How cards lie on a sheet: all lengths in points, from the sheet's upper left corner. */
export interface SheetPlan {
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
  /** Upper left corners of the trimmed cards, row by row. */
  readonly places: readonly { readonly x: number; readonly y: number }[];
  readonly card: Size;
  readonly bleed: number;
  /** The edge about which the sheet is turned for its back: left and right change. */
  readonly turn: 'long' | 'short';
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Rounding of sizes that are meant to be equal. */
const SAME = 1e-6;

/**
 * Lays as many cards on a sheet as it holds, upright or lying, in the middle. Without bleed cards meet edge to edge and
 * one cut parts two of them; with bleed each has its own all around.
 * @param bleed points
 * @throws BarwiseError `bad-option` where not one card fits
 */
export function planSheet(card: Size, sheet: Size, bleed: number): SheetPlan {
  const upright = gridOn(card, sheet, bleed);
  const lying = gridOn(card, { width: sheet.height, height: sheet.width }, bleed);
  const best = lying.places.length > upright.places.length ? lying : upright;
  if (best.places.length === 0)
    throw new BarwiseError(
      'bad-option',
      'The card does not fit on the sheet: choose a smaller card or a larger sheet.',
    );
  return best;
}

function gridOn(card: Size, { width, height }: Size, bleed: number): SheetPlan {
  const pitch = { x: card.width + 2 * bleed, y: card.height + 2 * bleed };
  const columns = Math.floor(width / pitch.x + SAME);
  const rows = Math.floor(height / pitch.y + SAME);
  const left = (width - columns * pitch.x) / 2 + bleed;
  const top = (height - rows * pitch.y) / 2 + bleed;
  const places = Array.from({ length: columns * rows }, (_, i) => ({
    x: left + (i % columns) * pitch.x,
    y: top + Math.floor(i / columns) * pitch.y,
  }));
  return { width, height, columns, rows, places, card, bleed, turn: height >= width ? 'long' : 'short' };
}

/**
 * `sheet`: one sheet after the other; `stack`: so that the piles of the cut stack lie in order one on the other.
 * @public
 */
export const SHEET_ORDERS = ['sheet', 'stack'] as const;
/** One of `SHEET_ORDERS`. @public */
export type SheetOrder = (typeof SHEET_ORDERS)[number];

/** What lies where on one side of a sheet: index of a card and of its page, by place. */
export interface SheetSide {
  readonly sheet: number;
  readonly side: 'front' | 'back';
  readonly places: readonly ({ readonly card: number; readonly page: number } | null)[];
}

/**
 * Deals the pages of cards out to sheets, two pages a leaf: fronts on one side, on the other their backs, left and right
 * changed.
 * @param pageCounts pages of each card, in order
 */
export function imposeCards(
  pageCounts: readonly number[],
  { columns, rows }: Pick<SheetPlan, 'columns' | 'rows'>,
  order: SheetOrder = 'sheet',
): readonly SheetSide[] {
  const leaves = pageCounts.flatMap((count, card) =>
    Array.from({ length: Math.ceil(count / 2) }, (_, i) => ({
      card,
      front: 2 * i,
      back: 2 * i + 1 < count ? 2 * i + 1 : null,
    })),
  );
  const perSheet = columns * rows;
  const sheets = Math.ceil(leaves.length / perSheet);
  const leafAt = (sheet: number, place: number) =>
    leaves[order === 'stack' ? place * sheets + sheet : sheet * perSheet + place];
  const mirrored = (place: number) => place - (place % columns) + (columns - 1 - (place % columns));
  const all = [...Array(perSheet).keys()];
  return [...Array(sheets).keys()].flatMap((sheet): SheetSide[] => {
    const front = all.map((place) => {
      const leaf = leafAt(sheet, place);
      return leaf === undefined ? null : { card: leaf.card, page: leaf.front };
    });
    const back = all.map((place) => {
      const leaf = leafAt(sheet, mirrored(place));
      return leaf === undefined || leaf.back === null ? null : { card: leaf.card, page: leaf.back };
    });
    const sides: SheetSide[] = [{ sheet, side: 'front', places: front }];
    // A sheet without a back would shift every side after it when both sides are printed.
    const anyBack = pageCounts.some((n) => n > 1);
    return anyBack ? [...sides, { sheet, side: 'back', places: back }] : sides;
  });
}

/** A line to cut along, and its place in the order of cutting. */
export interface Cut {
  readonly direction: 'across' | 'down';
  /** y of a cut across the sheet, x of one down it. */
  readonly at: number;
  readonly number: number;
}

/** Where to cut and in which order: across from top to bottom, which leaves strips, then down from left to right. */
export function cutsOf({ places, card, width, height }: SheetPlan): readonly Cut[] {
  const inside = (values: readonly number[], limit: number) =>
    [...values]
      .sort((a, b) => a - b)
      .filter((v, i, all) => v > SAME && v < limit - SAME && (i === 0 || v - all[i - 1] > SAME));
  const across = inside(
    places.flatMap((p) => [p.y, p.y + card.height]),
    height,
  );
  const down = inside(
    places.flatMap((p) => [p.x, p.x + card.width]),
    width,
  );
  return [
    ...across.map((at, i) => ({ direction: 'across', at, number: i + 1 }) as const),
    ...down.map((at, i) => ({ direction: 'down', at, number: across.length + i + 1 }) as const),
  ];
}

/** Length of a mark and its least distance from the bleed. */
const MARK = points(6);
const CLEAR = points(1);

/** From where to where a mark goes in from an edge of the sheet that lies `room` away from the nearest card. */
export function markSpan(room: number, bleed: number): readonly [number, number] {
  const free = room - bleed - CLEAR;
  // Where cards reach the edge, the mark lies in their white margins, on the line that is cut.
  return free >= MARK / 2 ? [Math.max(0, free - MARK), free] : [0, MARK];
}
