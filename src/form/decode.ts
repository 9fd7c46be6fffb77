import type { Fraction } from '../units/index.js';
import type { ChordReturns } from './chord-returns.js';
import { PHRASE_BARS, type LengthCosts } from './lengths.js';
import {
  ADVANCE,
  createLattice,
  FREE,
  trace,
  WIDTH,
  type BarConstraints,
  type BoundaryScores,
  type Lattice,
} from './lattice.js';
import { runPasses } from './passes.js';

/** One reading of the whole track: phrases that tile sections that tile the bars, as indices of bars. */
export interface Reading {
  readonly usual: number;
  readonly phraseStarts: readonly number[];
  readonly sectionStarts: readonly number[];
  /** Log of the summed weight of every reading with this usual length. */
  readonly evidence: number;
  /** Probability that a phrase (a section) starts at each bar. */
  readonly phrasePosterior: Float64Array;
  readonly sectionPosterior: Float64Array;
  /** Probability of the phrase of `bars` bars from `start`. */
  posteriorOf(start: number, bars: number): Fraction;
}

/**
 * Semi-Markov decoding of phrases inside sections: a state is a bar and the distance to its section's start; a step is a
 * whole phrase that may close the section. Viterbi for the reading, forward–backward in the same costs for how sure it is.
 * @param bars number of bars, at least 1
 * @param returns what the chords say of phrases off the groups
 */
export function decode(
  bars: number,
  scores: BoundaryScores,
  costs: LengthCosts,
  usual: number,
  constraints: BarConstraints = FREE,
  returns?: ChordReturns,
): Reading {
  const lattice = createLattice(bars, scores, costs, usual, constraints, returns);
  const { back, potential, forward, backward } = runPasses(lattice);
  const total = forward[bars * WIDTH];
  const phrasePosterior = new Float64Array(bars);
  const sectionPosterior = new Float64Array(bars);
  for (let b = 0; b < bars; b++) {
    let sum = 0;
    for (let o = 0; o < WIDTH; o++) sum += forward[b * WIDTH + o] * backward[b * WIDTH + o];
    phrasePosterior[b] = Math.min(sum / total, 1);
    sectionPosterior[b] = Math.min((forward[b * WIDTH] * backward[b * WIDTH]) / total, 1);
  }
  return {
    usual,
    ...trace(back, bars),
    evidence: potential[bars] + Math.log(total),
    phrasePosterior,
    sectionPosterior,
    posteriorOf(start, length) {
      if (length > lattice.reach[start] || potential[start + length] === -Infinity) return 0;
      let sum = 0;
      for (let o = 0; o < WIDTH; o++) {
        const f = forward[start * WIDTH + o];
        if (f > 0) sum += f * onward(lattice, potential, backward, start, o, length);
      }
      return Math.min(sum / total, 1);
    },
  };
}

/** How well a reading explains the track (nats), its usual phrase length paid for. */
export function logEvidence({ evidence, usual }: Reading, costs: LengthCosts): number {
  return evidence - costs.usual[PHRASE_BARS.indexOf(usual as 4 | 8 | 16)];
}

/** The reading that explains the track best. */
export function bestReading(readings: readonly Reading[], costs: LengthCosts): Reading {
  return readings.reduce((a, b) => (logEvidence(b, costs) > logEvidence(a, costs) ? b : a));
}

/** Weight of everything from a state on, given that the next phrase has l bars. */
function onward(
  lattice: Lattice,
  potential: Float64Array,
  backward: Float64Array,
  b: number,
  o: number,
  l: number,
): number {
  const to = b + l;
  const o2 = ADVANCE[o + Math.min(l, WIDTH - 1)];
  const w = lattice.phrases[b * lattice.perBar + l] + potential[b] - potential[to];
  const section = to === lattice.bars || o2 === to ? lattice.sectionAtEdge[o2] : lattice.section[o2];
  return (
    Math.exp(w + lattice.stay[to]) * backward[to * WIDTH + o2] +
    Math.exp(w + lattice.close[to] + section) * backward[to * WIDTH]
  );
}
