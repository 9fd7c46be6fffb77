import { createKernels } from '../signal/index.js';
import { ADVANCE, WIDTH, type Lattice } from './lattice.js';

/** What the passes over a lattice find, one value a state: `bar * WIDTH + distance to the section's start`. */
export interface Passes {
  /** The state before, on the best path; −1 where there is none. */
  readonly back: Int32Array;
  /** The best score at each bar, which keeps the sums below in range. */
  readonly potential: Float64Array;
  /** Summed weight of every way to each state, over exp(potential of its bar). */
  readonly forward: Float64Array;
  /** Summed weight of every way on, on the scale that makes forward · backward / total a probability. */
  readonly backward: Float64Array;
}

/** The passes one after the other; what is done at each bar is compiled. The arrays belong to the loops' memory. */
export function runPasses(lattice: Lattice): Passes {
  const { bars, perBar, reach, phrases } = lattice;
  const states = (bars + 1) * WIDTH;
  const kernels = createKernels(20 * states + 16 * (bars + 1) + 8 * ADVANCE.length + 24 * phrases.length + 4096);
  const { loops } = kernels;
  const best = kernels.doubles(states);
  const back = kernels.integers(states);
  const backward = kernels.doubles(states);
  const advance = kernels.integers(ADVANCE).at;
  const section = kernels.doubles(lattice.section);
  const edge = kernels.doubles(lattice.sectionAtEdge);
  // First what starts at each bar scores, and each phrase; then the weights of each phrase going on with the section, and closing it.
  const stay = kernels.doubles(Math.max(bars + 1, phrases.length));
  const close = kernels.doubles(Math.max(bars + 1, phrases.length));
  stay.view.set(lattice.stay);
  close.view.set(lattice.close);
  const scores = kernels.doubles(phrases);
  const row = 8 * perBar;
  best.view.fill(-Infinity);
  best.view[0] = 0;
  back.view.fill(-1);
  const potential = new Float64Array(bars + 1);
  for (let b = 0; b <= bars; b++)
    potential[b] = loops.phrasesFrom(b, bars, WIDTH, b < bars ? reach[b] : 0, scores.at + b * row, stay.at, close.at, advance, section.at, edge.at, best.at, back.at); // prettier-ignore
  // The scores of states are done with, and their room serves the sums.
  const forward = best;
  forward.view.fill(0);
  forward.view[0] = 1;
  backward.view[bars * WIDTH] = 1;
  section.view.set(lattice.section.map(Math.exp));
  edge.view.set(lattice.sectionAtEdge.map(Math.exp));
  for (let b = 0; b < bars; b++) setWeights(lattice, potential, b, stay.view, close.view);
  for (let b = 0; b < bars; b++)
    loops.forwardFrom(b, bars, WIDTH, reach[b], stay.at + b * row, close.at + b * row, advance, section.at, edge.at, forward.at); // prettier-ignore
  for (let b = bars - 1; b >= 0; b--)
    loops.backwardFrom(b, bars, WIDTH, reach[b], stay.at + b * row, close.at + b * row, advance, section.at, edge.at, forward.at, backward.at); // prettier-ignore
  return { back: back.view, potential, forward: forward.view, backward: backward.view };
}

/** Weights of the phrases from bar b, by their length, going on with the section and closing it; 0 where no way leads. */
function setWeights(
  lattice: Lattice,
  potential: Float64Array,
  b: number,
  stay: Float64Array,
  close: Float64Array,
): void {
  const row = b * lattice.perBar;
  for (let l = 1; l <= lattice.reach[b]; l++) {
    const to = b + l;
    const leads = potential[b] > -Infinity && potential[to] > -Infinity;
    const w = leads ? lattice.phrases[row + l] + potential[b] - potential[to] : -Infinity;
    stay[row + l] = Math.exp(w + lattice.stay[to]);
    close[row + l] = Math.exp(w + lattice.close[to]);
  }
}
