/** Scores so many nats behind the best are out of the question: their ones are not looked at. */
const FAR_BEHIND = 6;

/** Places of the scores that are not far behind the largest. */
export function closeScores(scores: readonly number[]): ReadonlySet<number> {
  const top = Math.max(...scores);
  return new Set(scores.flatMap((score, i) => (score > top - FAR_BEHIND ? [i] : [])));
}

/** Scores with `nats` for every nat of clearness, asked of those that are close to each other; as they are where one stands alone. */
export function withClearness(scores: readonly number[], nats: number, clearness: (i: number) => number): number[] {
  const asked = closeScores(scores);
  return scores.map((score, i) => (asked.size > 1 && asked.has(i) ? score + nats * clearness(i) : score));
}
