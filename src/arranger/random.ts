import { randomNumbers, type Fraction } from '../units/index.js';

/** Seeded random numbers. `fork` gives an independent stream for a label, whatever was drawn before. */
export interface Random {
  /** Evenly from 0 (inclusive) to 1 (exclusive). */
  next(): Fraction;
  between(low: number, high: number): number;
  /** A whole number, both ends included. */
  whole(low: number, high: number): number;
  pick<T>(list: readonly T[]): T;
  chance(probability: Fraction): boolean;
  /** Mean 0, standard deviation 1, cut at ±3. */
  normal(): number;
  fork(label: string): Random;
}

function hash(seed: number, label: string): number {
  let h = (seed ^ 0x9e3779b9) >>> 0;
  for (let i = 0; i < label.length; i++) {
    h = Math.imul(h ^ label.charCodeAt(i), 0x85ebca6b);
    h = ((h << 13) | (h >>> 19)) >>> 0;
  }
  h = Math.imul(h ^ (h >>> 16), 0xc2b2ae35);
  return (h ^ (h >>> 13)) >>> 0;
}

/** The stream for a seed. @example seededRandom(1).next() */
export function seededRandom(seed: number): Random {
  const next = randomNumbers(hash(seed >>> 0, 'start'));
  const between = (low: number, high: number): number => low + (high - low) * next();
  return {
    next,
    between,
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    pick: (list) => list[Math.floor(next() * list.length)],
    chance: (probability) => next() < probability,
    normal: () => {
      const value = Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
      return Math.min(3, Math.max(-3, value));
    },
    fork: (label) => seededRandom(hash(seed >>> 0, label)),
  };
}
