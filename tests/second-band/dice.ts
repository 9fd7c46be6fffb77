/** Seeded chance: xorshift32 (Marsaglia 2003, "Xorshift RNGs"), so that a seed always plays the same track. */
export interface Dice {
  /** Evenly from 0 to 1. */
  roll(): number;
  between(low: number, high: number): number;
  /** A whole number, both ends included. */
  whole(low: number, high: number): number;
  one<T>(list: readonly T[]): T;
  happens(probability: number): boolean;
  shuffled<T>(list: readonly T[]): T[];
}

/** Neighbouring seeds far apart: the finaliser of MurmurHash3 (Appleby, public domain). */
function scattered(seed: number): number {
  let h = (seed + 0x6b43a9b5) >>> 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

export function dice(seed: number): Dice {
  let x = scattered(seed) || 1;
  const roll = (): number => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    x >>>= 0;
    return x / 2 ** 32;
  };
  for (let i = 0; i < 8; i++) roll();
  const whole = (low: number, high: number) => Math.min(high, low + Math.floor(roll() * (high - low + 1)));
  return {
    roll,
    whole,
    between: (low, high) => low + (high - low) * roll(),
    one: (list) => list[whole(0, list.length - 1)],
    happens: (probability) => roll() < probability,
    shuffled: (list) => {
      const copy = [...list];
      for (let i = copy.length - 1; i > 0; i--) {
        const j = whole(0, i);
        [copy[i], copy[j]] = [copy[j], copy[i]];
      }
      return copy;
    },
  };
}
