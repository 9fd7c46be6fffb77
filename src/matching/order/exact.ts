/** What an order is judged by: from one track to the next, and at each place. */
export interface OrderCosts {
  readonly count: number;
  /** Cost of going from `i` to `j` at `[i * count + j]`. */
  readonly step: Float64Array;
  /** Cost of track `i` at place `p` at `[i * count + p]`. */
  readonly place: Float64Array;
  /** Tracks that must come before each. */
  readonly first: readonly (readonly number[])[];
}

/** Cost of a whole order. */
export function costOf({ count, step, place }: OrderCosts, order: readonly number[]): number {
  let sum = 0;
  for (let p = 0; p < order.length; p++) {
    sum += place[order[p] * count + p] + (p > 0 ? step[order[p - 1] * count + order[p]] : 0);
  }
  return sum;
}

/**
 * The best order there is, by dynamic programming over sets of tracks (Held & Karp, "A dynamic programming approach to
 * sequencing problems", 1962). Memory and time grow as 2^n: for up to 13 tracks.
 */
export function bestOrder({ count, step, place, first }: OrderCosts): number[] {
  const sets = 1 << count;
  const cost = new Float64Array(sets * count).fill(Infinity);
  const from = new Int8Array(sets * count).fill(-1);
  const needed = first.map((list) => list.reduce((bits, i) => bits | (1 << i), 0));
  for (let i = 0; i < count; i++) if (needed[i] === 0) cost[(1 << i) * count + i] = place[i * count];
  for (let set = 1; set < sets; set++) {
    const size = bitCount(set);
    for (let last = 0; last < count; last++) {
      const so = cost[set * count + last];
      if (so === Infinity) continue;
      for (let next = 0; next < count; next++) {
        if (set & (1 << next) || (needed[next] & set) !== needed[next]) continue;
        const then = set | (1 << next);
        const sum = so + step[last * count + next] + place[next * count + size];
        if (sum < cost[then * count + next]) {
          cost[then * count + next] = sum;
          from[then * count + next] = last;
        }
      }
    }
  }
  let set = sets - 1;
  let last = 0;
  for (let i = 1; i < count; i++) if (cost[set * count + i] < cost[set * count + last]) last = i;
  const order: number[] = [];
  while (last >= 0) {
    order.unshift(last);
    const before = from[set * count + last];
    set &= ~(1 << last);
    last = before;
  }
  return order;
}

function bitCount(value: number): number {
  let count = 0;
  for (let rest = value; rest > 0; rest &= rest - 1) count++;
  return count;
}
