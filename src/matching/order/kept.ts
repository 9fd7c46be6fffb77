import type { RunningOrder } from './order.js';
import type { OrderWishes } from './wishes.js';

/** How near a track has to come to the wished shape, as a share between softest and loudest. */
const NEAR = 0.2;

/** What became of a wish. Places count from 1. @experimental */
export type WishOutcome =
  | { readonly wish: 'start' | 'end'; readonly track: number; readonly kept: boolean }
  | { readonly wish: 'before'; readonly track: number; readonly other: number; readonly kept: boolean }
  /** `missed`: places of the records that come in by a larger step. */
  | { readonly wish: 'largest-step'; readonly bpm: number; readonly missed: readonly number[]; readonly kept: boolean }
  /** `missed`: places of the records that lie further than a fifth from the shape. */
  | { readonly wish: 'shape'; readonly missed: readonly number[]; readonly kept: boolean };

/**
 * Which wishes an order keeps, and where it does not keep one.
 * @experimental
 * @param order made by `orderTracks` under these wishes
 */
export function wishesKept(order: RunningOrder, wishes: OrderWishes): WishOutcome[] {
  const places = new Map(order.tracks.map(({ index }, place) => [index, place]));
  const at = (index: number): number => places.get(index) ?? -1;
  const { start, end, before = [], largestStep, shape } = wishes;
  const large = order.steps.flatMap(({ withinStep }, i) => (withinStep ? [] : [i + 2]));
  const far = order.tracks.flatMap(({ level, wanted }, i) =>
    wanted !== null && Math.abs(level - wanted) > NEAR ? [i + 1] : [],
  );
  return [
    ...(start === undefined ? [] : [{ wish: 'start' as const, track: start, kept: at(start) === 0 }]),
    ...(end === undefined ? [] : [{ wish: 'end' as const, track: end, kept: at(end) === order.tracks.length - 1 }]),
    ...before.map(([track, other]) => ({ wish: 'before' as const, track, other, kept: at(track) < at(other) })),
    ...(largestStep === undefined
      ? []
      : [{ wish: 'largest-step' as const, bpm: largestStep, missed: large, kept: large.length === 0 }]),
    ...(shape === undefined ? [] : [{ wish: 'shape' as const, missed: far, kept: far.length === 0 }]),
  ];
}
