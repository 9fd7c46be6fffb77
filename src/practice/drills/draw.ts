import { randomNumbers } from '../../units/index.js';

/** Draws that are thrown away before the last one is taken as it is; for the lists asked for, one in three is kept. */
const MOST_DRAWS = 1000;

/**
 * A list of questions that cannot be guessed from those before: each is drawn by itself, and the whole is thrown away and
 * drawn again until no kind is missing or fills the list and it follows no pattern. The same seed gives the same list.
 * @param kinds what is asked for, two or more
 * @param count how many questions
 */
export function drawQuestions<T>(kinds: readonly T[], count: number, seed: number): T[] {
  const random = randomNumbers(seed);
  let drawn: number[] = [];
  for (let i = 0; i < MOST_DRAWS; i++) {
    drawn = Array.from({ length: count }, () => Math.floor(random() * kinds.length));
    if (isBalanced(drawn, kinds.length) && !isPattern(drawn)) break;
  }
  return drawn.map((kind) => kinds[kind]);
}

/** Whether every kind comes, and none more than once above or below its share: the last one is not told by counting. */
function isBalanced(drawn: readonly number[], kinds: number): boolean {
  const share = drawn.length / kinds;
  return Array.from({ length: kinds }, (_, kind) => drawn.filter((d) => d === kind).length).every(
    (times) => times >= Math.max(1, Math.floor(share) - 1) && times <= Math.ceil(share) + 1,
  );
}

/** Whether one kind comes four times running, all come in pairs, or the list repeats itself. */
function isPattern(drawn: readonly number[]): boolean {
  const running = drawn.some((_, i) => i >= 3 && drawn.slice(i - 3, i).every((d) => d === drawn[i]));
  const paired = drawn.every((d, i) => i % 2 === 0 || d === drawn[i - 1]);
  const repeats = Array.from({ length: drawn.length >> 1 }, (_, i) => i + 1).some((period) =>
    drawn.every((d, i) => i < period || d === drawn[i - period]),
  );
  return running || paired || repeats;
}
