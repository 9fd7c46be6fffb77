import { readChain } from '../../../src/form/chain.js';
import { FUNCTION_CUES, functionCues } from '../../../src/form/function-cues.js';
import { changeCues, functionChain, type FunctionWeights } from '../../../src/form/functions.js';
import type { BoundaryScores } from '../../../src/form/lattice.js';
import { minimise } from '../../../src/learned/index.js';
import { SECTION_FUNCTIONS } from '../../../src/units/index.js';
import type { JudgedTrack } from './fit.js';

const NAMES = SECTION_FUNCTIONS;
const N = NAMES.length;
const CUES = FUNCTION_CUES.length;
const CHANGE_CUES = 2;
/** Where the weights of cues, of steps and of changes end in the vector that is fitted. */
const CUES_END = N * CUES;
const STEPS_END = CUES_END + N * N;
const CHANGES_END = STEPS_END + N * CHANGE_CUES;
const PENALTY = 0.5;
/** Steps from one function to another are held less tightly, to what the trade would expect. */
const STEP_PENALTY = 0.15;

interface Row {
  readonly cues: readonly (readonly number[])[];
  readonly change: readonly (readonly number[])[];
  /** Indices of the functions. */
  readonly right: readonly number[];
}

/** The phrases that start at the given bars as a row of cues and functions; each is what most of its bars are. */
export function functionRow(track: JudgedTrack, scores: BoundaryScores, starts: readonly number[]): Row {
  const ends = [...starts.slice(1), track.features.bars];
  const right = starts.map((start, i) => {
    const bars = NAMES.map((name) =>
      track.functions
        .filter((f) => f.function === name)
        .reduce((sum, f) => sum + Math.max(0, Math.min(f.to, ends[i]) - Math.max(f.from, start)), 0),
    );
    return bars.indexOf(Math.max(...bars));
  });
  return { cues: functionCues(track.features, track.tracks, starts), change: changeCues(scores, starts), right };
}

/**
 * Fits a linear-chain conditional random field (Lafferty et al., ICML 2001) over rows of phrases.
 * @param prior steps between functions that are expected without any evidence
 */
export function fitFunctions(rows: readonly Row[], prior: FunctionWeights['follows']): FunctionWeights {
  const expected = NAMES.flatMap((a) => NAMES.map((b) => prior[a][b]));
  const start = new Float64Array(CHANGES_END);
  start.set(expected, CUES_END);
  const fitted = minimise((w, gradient) => {
    gradient.fill(0);
    let loss = 0;
    const weights = unpacked(w);
    for (const row of rows) loss += chainLoss(row, weights, gradient);
    for (let i = 0; i < w.length; i++) {
      const step = i >= CUES_END && i < STEPS_END;
      const off = w[i] - (step ? expected[i - CUES_END] : 0);
      const l2 = step ? STEP_PENALTY : PENALTY;
      loss += l2 * off * off;
      gradient[i] += 2 * l2 * off;
    }
    return loss;
  }, start);
  return unpacked(fitted);
}

function unpacked(w: Float64Array): FunctionWeights {
  const byName = <T>(make: (k: number) => T) => Object.fromEntries(NAMES.map((name, k) => [name, make(k)])) as never;
  const part = (from: number, k: number, width: number) =>
    Array.from(w.subarray(from + k * width, from + (k + 1) * width));
  return {
    cues: byName((k) => part(0, k, CUES)),
    follows: byName((a) => byName((b) => w[CUES_END + a * N + b])),
    change: byName((k) => part(STEPS_END, k, CHANGE_CUES)),
  };
}

/** Negative log-likelihood of one row; adds its gradient. */
function chainLoss({ cues, change, right }: Row, weights: FunctionWeights, gradient: Float64Array): number {
  const chain = functionChain(cues, change, weights);
  const { posterior, pairs, logTotal } = readChain(chain);
  let score = 0;
  right.forEach((is, i) => {
    const was = right[i - 1];
    score += chain.own[i][is] + (i > 0 ? chain.step[i][was][is] : 0);
    for (let k = 0; k < N; k++) {
      const p = posterior[i][k] - (k === is ? 1 : 0);
      cues[i].forEach((v, c) => (gradient[k * CUES + c] += p * v));
      if (i === 0) continue;
      let into = 0;
      for (let a = 0; a < N; a++) {
        const joint = pairs[i][a][k] - (a === was && k === is ? 1 : 0);
        gradient[CUES_END + a * N + k] += joint;
        if (a !== k) into += joint;
      }
      change[i].forEach((v, c) => (gradient[STEPS_END + k * CHANGE_CUES + c] += into * v));
    }
  });
  return logTotal - score;
}
