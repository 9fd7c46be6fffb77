import { randomNumbers } from '../../units/index.js';
import type { OrderCosts } from './exact.js';

/** Moves that are tried for each track, and how warm the search begins and ends: shares of the mean step. */
const MOVES_A_TRACK = 2500;
const WARM = 0.4;
const COLD = 0.002;
/** Longest stretch that is moved or turned round. */
const STRETCH = 24;

/**
 * A good order for many tracks: the nearest next one, then moves of stretches by simulated annealing (Kirkpatrick, Gelatt
 * & Vecchi 1983). The same costs give the same order.
 */
export function goodOrder(costs: OrderCosts): number[] {
  const { count } = costs;
  const order = nearestNext(costs);
  if (count < 3) return order;
  const random = randomNumbers(count);
  let best = order.slice();
  let [now, lowest] = [0, 0]; // relative to the start: only differences matter
  const mean = costs.step.reduce((sum, x) => sum + Math.min(x, 10), 0) / costs.step.length;
  const moves = MOVES_A_TRACK * count;
  for (let m = 0; m < moves; m++) {
    const heat = mean * WARM * (COLD / WARM) ** (m / moves);
    const proposal = propose(count, random);
    const difference = apply(costs, order, proposal, heat, random);
    if (difference === null) continue;
    now += difference;
    if (now < lowest - 1e-12) {
      lowest = now;
      best = order.slice();
    }
  }
  return best;
}

/** A stretch from `from` to `to` (inclusive) of the order that is rotated by one part or turned round. */
interface Proposal {
  readonly from: number;
  readonly to: number;
  /** Where the second part begins; equal to `from` turns the stretch round. */
  readonly middle: number;
}

function propose(count: number, random: () => number): Proposal {
  const length = 2 + Math.floor(random() * Math.min(STRETCH, count - 1));
  const from = Math.floor(random() * (count - Math.min(length, count) + 1));
  const to = Math.min(count - 1, from + length - 1);
  const middle = random() < 0.3 ? from : from + 1 + Math.floor(random() * (to - from));
  return { from, to, middle };
}

/** Tries a move in place; takes it back when it is too dear. @returns the difference, or null when it was not made */
function apply(
  costs: OrderCosts,
  order: number[],
  { from, to, middle }: Proposal,
  heat: number,
  random: () => number,
): number | null {
  const old = order.slice(from, to + 1);
  const fresh = middle === from ? old.slice().reverse() : [...old.slice(middle - from), ...old.slice(0, middle - from)];
  const before = stretchCost(costs, order, from, to);
  fresh.forEach((track, i) => (order[from + i] = track));
  const difference = stretchCost(costs, order, from, to) - before;
  const taken = (difference <= 0 || random() < Math.exp(-difference / heat)) && allowed(costs, order, from, to);
  if (taken) return difference;
  old.forEach((track, i) => (order[from + i] = track));
  return null;
}

function stretchCost({ count, step, place }: OrderCosts, order: readonly number[], from: number, to: number): number {
  let sum = 0;
  for (let p = from; p <= to; p++) {
    sum += place[order[p] * count + p] + (p > 0 ? step[order[p - 1] * count + order[p]] : 0);
  }
  return to + 1 < order.length ? sum + step[order[to] * count + order[to + 1]] : sum;
}

/** Whether nothing in a stretch stands before what must come first. */
function allowed({ first }: OrderCosts, order: readonly number[], from: number, to: number): boolean {
  for (let p = from; p < to; p++) {
    const needs = first[order[p]];
    if (needs.length === 0) continue;
    for (let q = p + 1; q <= to; q++) if (needs.includes(order[q])) return false;
  }
  return true;
}

/** Always the cheapest next track of those that may come. */
function nearestNext({ count, step, place, first }: OrderCosts): number[] {
  const order: number[] = [];
  const left = new Set(Array.from({ length: count }, (_, i) => i));
  while (left.size > 0) {
    let [best, least] = [-1, Infinity];
    for (const i of left) {
      if (first[i].some((j) => left.has(j))) continue;
      const last = order[order.length - 1];
      const cost = place[i * count + order.length] + (last === undefined ? 0 : step[last * count + i]);
      if (cost < least) [best, least] = [i, cost];
    }
    order.push(best);
    left.delete(best);
  }
  return order;
}
