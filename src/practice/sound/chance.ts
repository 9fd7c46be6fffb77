import { randomNumbers } from '../../units/index.js';

/** A list in an order by chance that depends on the seed alone (Fisher–Yates shuffle). */
export function shuffled<T>(items: readonly T[], seed: number): T[] {
  const out = [...items];
  const random = randomNumbers(seed);
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [out[i], out[j]] = [out[j], out[i]];
  }
  return out;
}
