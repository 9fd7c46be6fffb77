import { FUNCTION_CUES, functionCues, type FunctionWeights } from '../../../src/form/functions.js';
import { minimise } from '../../../src/learned/index.js';
import { SECTION_FUNCTIONS } from '../../../src/units/index.js';
import type { JudgedTrack } from './fit.js';

const NAMES = SECTION_FUNCTIONS;
const N = NAMES.length;
const CUES = FUNCTION_CUES.length;
const PENALTY = 0.5;
/** Steps from one function to another are held less tightly, to what the trade would expect. */
const STEP_PENALTY = 0.15;

type Row = readonly { readonly cues: readonly number[]; readonly right: number }[];

/** Sections of a track as a row of cues and functions; each section is what most of its bars are. */
export function functionRow(track: JudgedTrack, starts: readonly number[]): Row {
  const ends = [...starts.slice(1), track.features.bars];
  return functionCues(track.features, track.tracks, starts).map((cues, i) => {
    const bars = NAMES.map((name) =>
      track.functions
        .filter((f) => f.function === name)
        .reduce((sum, f) => sum + Math.max(0, Math.min(f.to, ends[i]) - Math.max(f.from, starts[i])), 0),
    );
    return { cues, right: bars.indexOf(Math.max(...bars)) };
  });
}

/**
 * Fits a linear-chain conditional random field (Lafferty et al., ICML 2001) over rows of sections.
 * @param prior steps between functions that are expected without any evidence
 */
export function fitFunctions(rows: readonly Row[], prior: FunctionWeights['follows']): FunctionWeights {
  const expected = NAMES.flatMap((a) => NAMES.map((b) => prior[a][b]));
  const start = new Float64Array(N * CUES + N * N);
  start.set(expected, N * CUES);
  const w = minimise((weights, gradient) => {
    gradient.fill(0);
    let loss = 0;
    for (const row of rows) loss += chainLoss(row, weights, gradient);
    for (let i = 0; i < weights.length; i++) {
      const step = i >= N * CUES;
      const off = weights[i] - (step ? expected[i - N * CUES] : 0);
      const l2 = step ? STEP_PENALTY : PENALTY;
      loss += l2 * off * off;
      gradient[i] += 2 * l2 * off;
    }
    return loss;
  }, start);
  const byName = <T>(make: (k: number) => T) => Object.fromEntries(NAMES.map((name, k) => [name, make(k)])) as never;
  return {
    cues: byName((k) => Array.from(w.subarray(k * CUES, (k + 1) * CUES))),
    follows: byName((a) => byName((b) => w[N * CUES + a * N + b])),
  };
}

/** Negative log-likelihood of one row; adds its gradient. */
function chainLoss(row: Row, w: Float64Array, gradient: Float64Array): number {
  const own = row.map(({ cues }) => NAMES.map((_, k) => cues.reduce((s, v, c) => s + v * w[k * CUES + c], 0)));
  const step = (a: number, b: number) => w[N * CUES + a * N + b];
  const forward: number[][] = [];
  row.forEach((_, i) =>
    forward.push(
      NAMES.map((_n, b) => own[i][b] + (i > 0 ? logSum(NAMES.map((_m, a) => forward[i - 1][a] + step(a, b))) : 0)),
    ),
  );
  const backward: number[][] = row.map(() => NAMES.map(() => 0));
  for (let i = row.length - 2; i >= 0; i--)
    backward[i] = NAMES.map((_, a) => logSum(NAMES.map((_n, b) => step(a, b) + own[i + 1][b] + backward[i + 1][b])));
  const total = logSum(forward[row.length - 1]);
  let score = 0;
  row.forEach(({ cues, right }, i) => {
    score += own[i][right] + (i > 0 ? step(row[i - 1].right, right) : 0);
    for (let k = 0; k < N; k++) {
      const p = Math.exp(forward[i][k] + backward[i][k] - total) - (k === right ? 1 : 0);
      cues.forEach((v, c) => (gradient[k * CUES + c] += p * v));
      if (i === 0) continue;
      for (let a = 0; a < N; a++) {
        const joint = Math.exp(forward[i - 1][a] + step(a, k) + own[i][k] + backward[i][k] - total);
        gradient[N * CUES + a * N + k] += joint - (a === row[i - 1].right && k === right ? 1 : 0);
      }
    }
  });
  return total - score;
}

function logSum(values: readonly number[]): number {
  const top = Math.max(...values);
  return top + Math.log(values.reduce((s, v) => s + Math.exp(v - top), 0));
}
