/**
 * The smoothest curve near weighted values: minimises Σ w(x − v)² + stiffness · Σ (second difference of x)² (Whittaker,
 * "On a new method of graduation", 1923), weights scaled to mean 1. Solved by a banded elimination.
 */
export function smoothCurve(values: readonly number[], weights: readonly number[], stiffness: number): Float64Array {
  const n = values.length;
  const mean = weights.reduce((a, b) => a + b, 0) / Math.max(n, 1) || 1;
  // Symmetric band of width 2: d0 on the diagonal, d1 and d2 beside it.
  const d0 = new Float64Array(n);
  const d1 = new Float64Array(n);
  const d2 = new Float64Array(n);
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const w = weights[i] / mean + 1e-6;
    d0[i] = w;
    x[i] = w * values[i];
  }
  for (let i = 0; i + 2 < n; i++) {
    d0[i] += stiffness;
    d0[i + 1] += 4 * stiffness;
    d0[i + 2] += stiffness;
    d1[i] -= 2 * stiffness;
    d1[i + 1] -= 2 * stiffness;
    d2[i] += stiffness;
  }
  for (let i = 0; i < n; i++) {
    for (const [k, band] of [
      [1, d1],
      [2, d2],
    ] as const) {
      if (i + k >= n) continue;
      const factor = band[i] / d0[i];
      d0[i + k] -= factor * band[i];
      if (k === 1 && i + 2 < n) d1[i + 1] -= factor * d2[i];
      x[i + k] -= factor * x[i];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let v = x[i];
    if (i + 1 < n) v -= d1[i] * x[i + 1];
    if (i + 2 < n) v -= d2[i] * x[i + 2];
    x[i] = v / d0[i];
  }
  return x;
}
