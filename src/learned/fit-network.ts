import { createDraw } from './draw.js';
import { LIMIT, momentsOf, sigmoid, type Example } from './logistic.js';
import type { Network } from './network.js';

/** How a network is fitted. */
export interface NetworkOptions {
  readonly units: number;
  /** Penalty on the squares of all weights but thresholds and bias, per example. */
  readonly l2: number;
  /** Every time an example is looked at, its standardised cues are moved by chance, with this standard deviation. */
  readonly noise: number;
  readonly passes: number;
}

/** Examples that one step looks at, the first step size, and how much of the past gradients is kept (Kingma & Ba 2015). */
const BATCH = 256;
const STEP = 3e-3;
const LEAST_STEP = 1e-5;
const KEEP = 0.9;
const KEEP_SQUARES = 0.999;

/**
 * Fits a network by maximum likelihood: stochastic gradient descent with moments (Kingma & Ba, "Adam", 2015), steps that get
 * smaller by a cosine (Loshchilov & Hutter, "SGDR", 2017), and noise on the cues, which keeps it from learning single
 * examples by heart (Bishop, "Training with noise is equivalent to Tikhonov regularization", 1995). Chance is drawn from
 * fixed numbers: the same examples give the same network.
 */
export function fitNetwork(examples: readonly Example[], options: NetworkOptions): Network {
  const n = examples[0].cues.length;
  const { units, passes } = options;
  const { mean, scale, rows } = standardised(examples, n);
  const total = examples.reduce((s, e) => s + e.weight, 0) / examples.length;
  const draw = createDraw();
  // Hidden weights, thresholds, out, weights, bias: in one vector.
  const [tAt, oAt, wAt] = [units * n, units * n + units, units * n + 2 * units];
  const x = new Float64Array(wAt + n + 1);
  for (let i = 0; i < tAt; i++) x[i] = ((2 * draw() - 1) * Math.sqrt(3)) / Math.sqrt(n);
  for (let i = oAt; i < wAt; i++) x[i] = 0.5 * (2 * draw() - 1);
  const gradient = new Float64Array(x.length);
  const first = new Float64Array(x.length);
  const second = new Float64Array(x.length);
  const z = new Float64Array(n);
  const active = new Float64Array(units);
  const order = Int32Array.from(examples, (_, i) => i);
  const reach = options.noise * Math.sqrt(3);
  let step = 0;
  for (let pass = 0; pass < passes; pass++) {
    shuffle(order, draw);
    const length = STEP * 0.5 * (1 + Math.cos((Math.PI * pass) / passes)) + LEAST_STEP;
    for (let from = 0; from < order.length; from += BATCH) {
      const to = Math.min(from + BATCH, order.length);
      for (let i = 0; i < x.length; i++) {
        const free = (i >= tAt && i < oAt) || i === x.length - 1;
        gradient[i] = free ? 0 : (options.l2 / examples.length) * x[i];
      }
      for (let k = from; k < to; k++) addGradient(order[k], to - from);
      step++;
      const [c1, c2] = [1 - KEEP ** step, 1 - KEEP_SQUARES ** step];
      for (let i = 0; i < x.length; i++) {
        first[i] = KEEP * first[i] + (1 - KEEP) * gradient[i];
        second[i] = KEEP_SQUARES * second[i] + (1 - KEEP_SQUARES) * gradient[i] ** 2;
        x[i] -= (length * (first[i] / c1)) / (Math.sqrt(second[i] / c2) + 1e-8);
      }
    }
  }

  function addGradient(i: number, count: number): void {
    const at = i * n;
    let odds = x[x.length - 1];
    for (let k = 0; k < n; k++) {
      z[k] = rows[at + k] + reach * (2 * draw() - 1);
      odds += x[wAt + k] * z[k];
    }
    for (let h = 0; h < units; h++) {
      let s = x[tAt + h];
      for (let k = 0; k < n; k++) s += x[h * n + k] * z[k];
      active[h] = Math.max(0, s);
      odds += x[oAt + h] * active[h];
    }
    const { right, weight } = examples[i];
    const slope = ((weight / total) * (sigmoid(odds) - (right ? 1 : 0))) / count;
    for (let k = 0; k < n; k++) gradient[wAt + k] += slope * z[k];
    gradient[x.length - 1] += slope;
    for (let h = 0; h < units; h++) {
      if (active[h] === 0) continue;
      gradient[oAt + h] += slope * active[h];
      const d = slope * x[oAt + h];
      gradient[tAt + h] += d;
      for (let k = 0; k < n; k++) gradient[h * n + k] += d * z[k];
    }
  }

  return {
    mean,
    scale,
    hidden: Array.from(x.subarray(0, tAt)),
    thresholds: Array.from(x.subarray(tAt, oAt)),
    out: Array.from(x.subarray(oAt, wAt)),
    weights: Array.from(x.subarray(wAt, wAt + n)),
    bias: x[x.length - 1],
  };
}

function standardised(examples: readonly Example[], n: number) {
  const { mean, scale } = momentsOf(examples);
  const rows = new Float32Array(examples.length * n);
  examples.forEach((e, i) => {
    for (let k = 0; k < n; k++) rows[i * n + k] = Math.max(-LIMIT, Math.min(LIMIT, (e.cues[k] - mean[k]) / scale[k]));
  });
  return { mean, scale, rows };
}

function shuffle(order: Int32Array, draw: () => number): void {
  for (let i = order.length - 1; i > 0; i--) {
    const k = Math.floor(draw() * (i + 1));
    [order[i], order[k]] = [order[k], order[i]];
  }
}
