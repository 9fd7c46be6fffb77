import type { FrameWalk } from '../framed/walk.js';

/**
 * Numbers the frames after a break by the count in the tag. The length of the break tells little about how many frames
 * are gone when bytes are missing; when there is one break and the end is whole, the count tells it exactly.
 * @param from the first frame that the tag counts, @param counted how many there should be
 */
export function restoreNumbers<H>(walk: FrameWalk<H>, from: number, counted: number | null): FrameWalk<H> {
  if (!counted || walk.breaks !== 1 || walk.cut || walk.rest > 0) return walk;
  const after = breakOf(walk);
  const shift = counted - (walk.numbers[walk.numbers.length - 1] + 1 - walk.numbers[from]);
  if (after === null || shift === 0 || walk.numbers[after] + shift <= walk.numbers[after - 1]) return walk;
  return { ...walk, numbers: walk.numbers.map((number, i) => (i < after ? number : number + shift)) };
}

/** The first frame after the break. */
function breakOf({ offsets, lengths }: FrameWalk<unknown>): number | null {
  for (let i = 1; i < offsets.length; i++) if (offsets[i] !== offsets[i - 1] + lengths[i - 1]) return i;
  return null;
}
