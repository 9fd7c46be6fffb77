import type { Hertz } from '../../units/index.js';
import type { Random } from '../random.js';
import { RATE } from './shot.js';

/** One sample of an oscillator at a frequency that may change from sample to sample. */
export type Oscillator = (frequency: Hertz) => number;

/** What takes the step out of a saw or square (polynomial band-limited step, Välimäki & Huovilainen 2007). */
function stepCorrection(phase: number, increment: number): number {
  if (phase < increment) {
    const t = phase / increment;
    return t + t - t * t - 1;
  }
  if (phase > 1 - increment) {
    const t = (phase - 1) / increment;
    return t * t + t + t + 1;
  }
  return 0;
}

export function saw(phase: number): Oscillator {
  return (frequency) => {
    const increment = frequency / RATE;
    phase += increment;
    if (phase >= 1) phase -= 1;
    return 2 * phase - 1 - stepCorrection(phase, increment);
  };
}

export function square(phase: number): Oscillator {
  return (frequency) => {
    const increment = frequency / RATE;
    phase += increment;
    if (phase >= 1) phase -= 1;
    const half = phase >= 0.5 ? phase - 0.5 : phase + 0.5;
    return (phase < 0.5 ? 1 : -1) + stepCorrection(phase, increment) - stepCorrection(half, increment);
  };
}

export function sine(phase: number): Oscillator {
  return (frequency) => {
    phase += frequency / RATE;
    if (phase >= 1) phase -= 1;
    return Math.sin(2 * Math.PI * phase);
  };
}

/** Several detuned saws at once, `cents` apart at the widest; scaled so that their number does not change the level. */
export function sawStack(count: number, cents: number, random: Random): Oscillator {
  const phases = Float64Array.from({ length: count }, () => random.next());
  const ratios = Float64Array.from(
    phases,
    (_, i) => 2 ** ((cents * (count > 1 ? (2 * i) / (count - 1) - 1 : 0)) / 2400),
  );
  const scale = 1 / Math.sqrt(count);
  return (frequency) => {
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const increment = (frequency * ratios[i]) / RATE;
      let phase = phases[i] + increment;
      if (phase >= 1) phase -= 1;
      phases[i] = phase;
      sum += 2 * phase - 1;
      if (phase < increment || phase > 1 - increment) sum -= stepCorrection(phase, increment);
    }
    return sum * scale;
  };
}

/** White noise within ±1. */
export function noise(random: Random): () => number {
  let state = (random.next() * 4294967296) | 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 2147483648;
  };
}

/** Falls from 1 by a factor e each `seconds`. */
export function decay(i: number, seconds: number): number {
  return Math.exp(-i / (seconds * RATE));
}
