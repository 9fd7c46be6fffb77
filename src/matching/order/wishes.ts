import { BarwiseError, type Bpm, type Fraction } from '../../units/index.js';

/** How loudness and density are wanted to run over the evening. @experimental */
export const SHAPES = ['rise', 'fall', 'arc', 'valley'] as const;
/** One of `SHAPES`. @experimental */
export type ShapeName = (typeof SHAPES)[number];

/** What is wished of a running order. Tracks are named by their index in the list. @experimental */
export interface OrderWishes {
  readonly start?: number;
  readonly end?: number;
  /** The first of each comes somewhere before the second. */
  readonly before?: readonly (readonly [number, number])[];
  /** At most so many beats a minute from one record to the next; half and double tempo are the same. */
  readonly largestStep?: Bpm;
  /** A shape by name, or points of a curve from the first record to the last, each 0 (softest, thinnest) to 1. */
  readonly shape?: ShapeName | readonly Fraction[];
}

/** Wanted place between the softest and the loudest at a share of the evening. */
export function shapeAt(shape: NonNullable<OrderWishes['shape']>, at: Fraction): Fraction {
  if (typeof shape !== 'string') {
    if (shape.length === 1) return shape[0];
    const place = at * (shape.length - 1);
    const i = Math.min(Math.floor(place), shape.length - 2);
    return shape[i] + (place - i) * (shape[i + 1] - shape[i]);
  }
  const hill = 1 - Math.abs(at - 0.65) / 0.65;
  return {
    rise: at,
    fall: 1 - at,
    arc: Math.max(0, at <= 0.65 ? at / 0.65 : 1 - (at - 0.65) / 0.7),
    valley: 1 - Math.max(0, hill),
  }[shape];
}

/**
 * Which tracks must have come before each: as bits where there are few, as lists otherwise.
 * @throws BarwiseError `contradiction` for wishes that cannot all be met, `bad-option` for tracks that are not there
 */
export function predecessors(count: number, wishes: OrderWishes): readonly (readonly number[])[] {
  const known = (i: number) => Number.isInteger(i) && i >= 0 && i < count;
  const { start, end, before = [], shape } = wishes;
  for (const i of [...before.flat(), ...[start, end].filter((x) => x !== undefined)]) {
    if (!known(i)) throw new BarwiseError('bad-option', `There is no track ${i}: the list has ${count}.`);
  }
  if (Array.isArray(shape) && (shape.length === 0 || shape.some((x) => !(x >= 0 && x <= 1))))
    throw new BarwiseError('bad-option', 'The points of a shape go from 0 to 1.');
  if (count > 1 && start !== undefined && start === end)
    throw new BarwiseError('contradiction', 'One track cannot be both first and last: name two.');
  const first = Array.from({ length: count }, () => new Set<number>());
  for (const [x, y] of before) first[y].add(x);
  if (start !== undefined) for (let i = 0; i < count; i++) if (i !== start) first[i].add(start);
  if (end !== undefined) for (let i = 0; i < count; i++) if (i !== end) first[end].add(i);
  // every track can be placed in some order, or the wishes go round in a circle
  const left = new Set(first.keys());
  for (;;) {
    const free = [...left].filter((i) => [...first[i]].every((j) => !left.has(j)));
    if (free.length === 0) break;
    free.forEach((i) => left.delete(i));
  }
  if (left.size > 0)
    throw new BarwiseError(
      'contradiction',
      'These wishes contradict each other: no order has each track before the others as asked for.',
    );
  return first.map((set) => [...set]);
}
