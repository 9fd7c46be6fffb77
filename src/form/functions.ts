import { SECTION_FUNCTIONS, type Fraction, type SectionFunction } from '../units/index.js';
import { readChain, type Chain } from './chain.js';
import type { BoundaryScores } from './lattice.js';

/** Boundary scores are read in units of this many nats, about their spread. */
const SCORE_UNIT = 3;

/** Log weight of what a person has ruled out. */
const NEVER = -1e6;

type ByFunction<T> = Readonly<Record<SectionFunction, T>>;

/** Weights of each function on the cues, of one function following another, and of a change into it on the boundary scores. */
export interface FunctionWeights {
  readonly cues: ByFunction<readonly number[]>;
  readonly follows: ByFunction<ByFunction<number>>;
  readonly change: ByFunction<readonly number[]>;
}

/** What the phrases of a track do. */
export interface PhraseFunctions {
  readonly functions: readonly SectionFunction[];
  /** How likely each phrase does what is said of it. */
  readonly confidence: readonly Fraction[];
  /** How likely each phrase does something else than the one before it; 1 for the first. */
  readonly change: readonly Fraction[];
}

/** Boundary scores at the phrase starts, as what a change of function is judged by. */
export function changeCues({ section, phrase }: BoundaryScores, starts: readonly number[]): number[][] {
  return starts.map((b) => [section[b] / SCORE_UNIT, phrase[b] / SCORE_UNIT]);
}

/** Scores of a row of phrases under the weights: a linear-chain conditional random field (Lafferty et al., ICML 2001). */
export function functionChain(
  cues: readonly (readonly number[])[],
  change: readonly (readonly number[])[],
  weights: FunctionWeights,
): Chain {
  const names = SECTION_FUNCTIONS;
  return {
    own: cues.map((c) => names.map((f) => dot(weights.cues[f], c))),
    step: change.map((e) =>
      names.map((a) => names.map((b) => weights.follows[a][b] + (a === b ? 0 : dot(weights.change[b], e)))),
    ),
  };
}

/** Nothing ends before it has begun: an outro comes after something, an intro before something. */
function isOut(f: SectionFunction, phrase: number, phrases: number): boolean {
  return (f === 'outro' && phrase === 0) || (f === 'intro' && phrase === phrases - 1);
}

/**
 * The most likely functions of the phrases.
 * @param fixed a person's word on single phrases
 * @param joined phrases that are of one section with the phrase before and so do the same
 */
export function phraseFunctions(
  chain: Chain,
  fixed: readonly (SectionFunction | null)[],
  joined: readonly boolean[] = [],
): PhraseFunctions {
  const names = SECTION_FUNCTIONS;
  const { path, posterior, pairs } = readChain({
    own: chain.own.map((row, i) =>
      row.map((v, k) => ((fixed[i] ? fixed[i] !== names[k] : isOut(names[k], i, chain.own.length)) ? NEVER : v)),
    ),
    step: chain.step.map((rows, i) =>
      joined[i] ? rows.map((row, a) => row.map((v, b) => (a === b ? v : NEVER))) : rows,
    ),
  });
  return {
    functions: path.map((k) => names[k]),
    confidence: path.map((k, i) => posterior[i][k]),
    change: pairs.map((pair, i) => (i === 0 ? 1 : Math.max(0, 1 - pair.reduce((s, row, a) => s + row[a], 0)))),
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((s, v, i) => s + v * b[i], 0);
}
