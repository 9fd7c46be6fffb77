import type { Fraction, Hertz, Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { magnitudeNear, magnitudesAround, phasors, type Phasors } from './phasors.js';

/** Multiples of the beat frequency whose Fourier magnitudes are added up, and their weights (methods, stage 2). */
const HARMONICS: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 1],
  [4, 0.5],
  [8, 0.25],
];

/** Blocks of half a second: within the search range a block's phase stays good up to the highest multiple. */
const BLOCK_ROWS = 50;

/** Search range on either side, as a share of the frequency. */
const RANGE = 0.012;

/** How well a beat frequency fits the whole track. */
export interface TempoFit {
  readonly frequency: Hertz;
  /** Σ weight · |X(kf)|. */
  readonly strength: number;
}

/** Parts of eight seconds: long enough for a rhythm to show, short enough for any tempo to hold. */
const PART_BLOCKS = 16;

/**
 * How much of the pulse at a frequency survives when the parts of a track are added up, against the parts each in its own
 * phase: near 1 where one clock drives the whole.
 */
export function steadiness({ all, rate, start }: OnsetCurves, frequency: Hertz): Fraction {
  let whole = 0;
  let apart = 0;
  for (const { phasor, weight } of harmonicsOf(all, rate, start, frequency, PART_BLOCKS * BLOCK_ROWS)) {
    const { re, im } = phasor;
    let sumRe = 0;
    let sumIm = 0;
    for (let i = 0; i < re.length; i++) {
      sumRe += re[i];
      sumIm += im[i];
      apart += weight * Math.hypot(re[i], im[i]);
    }
    whole += weight * Math.hypot(sumRe, sumIm);
  }
  return apart > 0 ? whole / apart : 0;
}

/** The frequency near `frequency` at which the onsets of the whole track add up best, to about 1e−5 of it. */
export function refineTempo(onsets: OnsetCurves, frequency: Hertz, range = RANGE): TempoFit {
  const { all, rate, start, rows } = onsets;
  const sets = harmonicsOf(all, rate, start, frequency, BLOCK_ROWS);
  const strength = (f: Hertz) => {
    let sum = 0;
    for (const { phasor, k, weight } of sets) sum += weight * magnitudeNear(phasor, k * f);
    return sum;
  };
  const highest = sets[sets.length - 1].k;
  let step = rate / rows / highest / 2.5;
  let best = frequency;
  let bestStrength = strength(frequency);
  const steps = Math.ceil((range * frequency) / step);
  const found = strengthsAround(sets, step, steps);
  for (let i = -steps; i <= steps; i++) {
    if (found[i + steps] > bestStrength) {
      best = frequency + i * step;
      bestStrength = found[i + steps];
    }
  }
  while (step > 1e-6 * frequency) {
    step /= 2;
    for (const f of [best - step, best + step]) {
      const s = strength(f);
      if (s > bestStrength) {
        best = f;
        bestStrength = s;
      }
    }
  }
  return { frequency: best, strength: bestStrength };
}

/** A multiple of the beat frequency, block by block. */
interface Harmonic {
  readonly phasor: Phasors;
  readonly k: number;
  readonly weight: number;
}

function harmonicsOf(all: Float32Array, rate: Hertz, start: Seconds, frequency: Hertz, blockRows: number): Harmonic[] {
  const used = HARMONICS.filter(([k]) => k * frequency < rate / 3);
  const found = phasors(
    all,
    rate,
    start,
    used.map(([k]) => k * frequency),
    blockRows,
  );
  return used.map(([k, weight], i) => ({ phasor: found[i], k, weight }));
}

/** Strengths at `steps` frequencies below, at, and above the one of the phasors. */
function strengthsAround(sets: readonly Harmonic[], step: Hertz, steps: number): Float64Array {
  const strengths = new Float64Array(2 * steps + 1);
  const found = new Float64Array(2 * (steps + 1));
  for (const { phasor, k, weight } of sets) {
    magnitudesAround(phasor, k * step, steps, found);
    addAround(strengths, found, weight);
  }
  return strengths;
}

/** Adds magnitudes above and below, which lie one after the other from the middle on, to what lies in order. */
function addAround(strengths: Float64Array, found: Float64Array, weight: number): void {
  const steps = found.length / 2 - 1;
  for (let i = 0; i <= steps; i++) {
    strengths[steps + i] += weight * found[i];
    if (i > 0) strengths[steps - i] += weight * found[steps + 1 + i];
  }
}
