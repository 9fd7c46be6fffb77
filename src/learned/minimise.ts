/** A function of a vector that also writes its gradient. */
export type Objective = (x: Float64Array, gradient: Float64Array) => number;

const MEMORY = 8;
const STEPS = 300;

/**
 * Minimises a smooth convex function by L-BFGS with backtracking (Nocedal & Wright, "Numerical Optimization", 2006,
 * algorithm 7.4). Stops when the gradient's largest entry is below 1e−6 or after 300 steps.
 */
export function minimise(objective: Objective, start: Float64Array): Float64Array {
  let x = Float64Array.from(start);
  let g = new Float64Array(x.length);
  let value = objective(x, g);
  const history: { s: Float64Array; y: Float64Array; rho: number }[] = [];
  for (let step = 0; step < STEPS && largest(g) > 1e-6; step++) {
    const direction = descent(g, history);
    const slope = dot(direction, g);
    let length = history.length === 0 ? 1 / Math.max(Math.sqrt(dot(g, g)), 1) : 1;
    let next = x;
    let nextG = g;
    let nextValue = Infinity;
    while (length > 1e-12) {
      next = x.map((v, i) => v + length * direction[i]);
      nextG = new Float64Array(x.length);
      nextValue = objective(next, nextG);
      if (nextValue <= value + 1e-4 * length * slope) break;
      length /= 2;
    }
    if (!(nextValue < value)) break;
    const s = next.map((v, i) => v - x[i]);
    const y = nextG.map((v, i) => v - g[i]);
    const sy = dot(s, y);
    if (sy > 1e-14) history.push({ s, y, rho: 1 / sy });
    if (history.length > MEMORY) history.shift();
    [x, g, value] = [next, nextG, nextValue];
  }
  return x;
}

function descent(g: Float64Array, history: readonly { s: Float64Array; y: Float64Array; rho: number }[]): Float64Array {
  const q = g.map((v) => -v);
  const alphas: number[] = [];
  for (let i = history.length - 1; i >= 0; i--) {
    const { s, y, rho } = history[i];
    alphas[i] = rho * dot(s, q);
    for (let k = 0; k < q.length; k++) q[k] -= alphas[i] * y[k];
  }
  const last = history[history.length - 1];
  if (last) {
    const scale = 1 / (last.rho * dot(last.y, last.y));
    for (let k = 0; k < q.length; k++) q[k] *= scale;
  }
  history.forEach(({ s, y, rho }, i) => {
    const beta = rho * dot(y, q);
    for (let k = 0; k < q.length; k++) q[k] += (alphas[i] - beta) * s[k];
  });
  return q;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function largest(a: Float64Array): number {
  return a.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
}
