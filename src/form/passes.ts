import { createKernels, type Kernels } from '../signal/index.js';
import { ADVANCE, phraseScore, WIDTH, type Lattice } from './lattice.js';

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
  const { bars, perBar } = lattice;
  const states = (bars + 1) * WIDTH;
  const kernels = createKernels(20 * states + 16 * (bars + 1) + 8 * ADVANCE.length + 16 * perBar + 4096);
  const best = kernels.doubles(states);
  const back = kernels.integers(states);
  const backward = kernels.doubles(states);
  const rooms = roomsOf(kernels, lattice);
  best.view.fill(-Infinity);
  best.view[0] = 0;
  back.view.fill(-1);
  const potential = bestPaths(kernels, lattice, rooms, best.at, back.at);
  // The scores are done with, and their room serves the sums.
  const forward = best;
  forward.view.fill(0);
  forward.view[0] = 1;
  backward.view[bars * WIDTH] = 1;
  rooms.section.view.set(lattice.section.map(Math.exp));
  rooms.edge.view.set(lattice.sectionAtEdge.map(Math.exp));
  const { stay, close, advance, section, edge } = rooms;
  for (let b = 0; b < bars; b++) {
    setWeights(lattice, potential, b, stay.view, close.view);
    kernels.loops.forwardFrom(b, bars, WIDTH, lattice.reach[b], stay.at, close.at, advance.at, section.at, edge.at, forward.at); // prettier-ignore
  }
  for (let b = bars - 1; b >= 0; b--) {
    setWeights(lattice, potential, b, stay.view, close.view);
    kernels.loops.backwardFrom(b, bars, WIDTH, lattice.reach[b], stay.at, close.at, advance.at, section.at, edge.at, forward.at, backward.at); // prettier-ignore
  }
  return { back: back.view, potential, forward: forward.view, backward: backward.view };
}

/** Room for what the loops read; `stay` and `close` have one value a bar first, one a length of a phrase afterwards. */
function roomsOf(kernels: Kernels, { bars, perBar, stay, close, section, sectionAtEdge }: Lattice) {
  const most = Math.max(bars + 1, perBar);
  const rooms = {
    advance: kernels.integers(ADVANCE),
    phrases: kernels.doubles(perBar),
    stay: kernels.doubles(most),
    close: kernels.doubles(most),
    section: kernels.doubles(section),
    edge: kernels.doubles(sectionAtEdge),
  };
  rooms.stay.view.set(stay);
  rooms.close.view.set(close);
  return rooms;
}

/** Viterbi: gives the best score at each bar and leaves the way there in `back`. */
function bestPaths(
  { loops }: Kernels,
  lattice: Lattice,
  { advance, phrases, stay, close, section, edge }: ReturnType<typeof roomsOf>,
  best: number,
  back: number,
): Float64Array {
  const { bars, reach } = lattice;
  const potential = new Float64Array(bars + 1);
  for (let b = 0; b <= bars; b++) {
    const far = b < bars ? reach[b] : 0;
    for (let l = 1; l <= far; l++) phrases.view[l] = phraseScore(lattice, b, l);
    potential[b] = loops.phrasesFrom(b, bars, WIDTH, far, phrases.at, stay.at, close.at, advance.at, section.at, edge.at, best, back); // prettier-ignore
  }
  return potential;
}

/** Weights of the phrases from bar b, by their length, going on with the section and closing it; 0 where no way leads. */
function setWeights(
  lattice: Lattice,
  potential: Float64Array,
  b: number,
  stay: Float64Array,
  close: Float64Array,
): void {
  for (let l = 1; l <= lattice.reach[b]; l++) {
    const to = b + l;
    const leads = potential[b] > -Infinity && potential[to] > -Infinity;
    const w = leads ? phraseScore(lattice, b, l) + potential[b] - potential[to] : -Infinity;
    stay[l] = Math.exp(w + lattice.stay[to]);
    close[l] = Math.exp(w + lattice.close[to]);
  }
}
