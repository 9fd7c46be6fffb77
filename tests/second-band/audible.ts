import { butterworth, createBiquad } from '../../src/signal/index.js';
import type { Layer } from '../../src/units/index.js';
import type { Stem, Stems } from './playing/stage.js';
import { RATE } from './voices/shapes.js';

/** Octave bands in which levels are compared, by their middle (IEC 61260-1). */
const OCTAVES = [63, 125, 250, 500, 1000, 2000, 4000, 8000];
/** In one of the bands, a layer must come up to this against everything else there … */
export const LEAST_AGAINST_REST = -6;
/** … and the band must lie within this of the loudest band of the mix. Both in decibels. */
export const LEAST_AGAINST_LOUDEST = -30;

const STEMS_OF: Readonly<Record<Layer, readonly Stem[]>> = {
  kick: ['kick'],
  bass: ['bass'],
  percussion: ['drums', 'tops'],
  harmony: ['keys'],
  voice: ['voice'],
};

/**
 * Whether a layer is heard between two times: in at least one octave band it reaches −6 dB against everything else in
 * this band, and the band lies no more than 30 dB below the loudest band of the mix. An entry that is not heard in the two
 * bars after it, or an exit of what was not heard in the two bars before it, is left without a label.
 */
export function isAudible(stems: Stems, layer: Layer, from: number, to: number): boolean {
  const a = Math.max(0, Math.round(from * RATE));
  const b = Math.min(stems.kick.length, Math.round(to * RATE));
  const own = new Float32Array(b - a);
  const rest = new Float32Array(b - a);
  for (const [stem, x] of Object.entries(stems) as [Stem, Float32Array][]) {
    const into = STEMS_OF[layer].includes(stem) ? own : rest;
    for (let i = a; i < b; i++) into[i - a] += x[i];
  }
  const levels = OCTAVES.map((middle) => ({ own: power(own, middle), rest: power(rest, middle) }));
  const loudest = Math.max(...levels.map((l) => l.own + l.rest));
  const heard = (l: { own: number; rest: number }) =>
    l.own > l.rest * 10 ** (LEAST_AGAINST_REST / 10) && l.own > loudest * 10 ** (LEAST_AGAINST_LOUDEST / 10);
  return loudest > 0 && levels.some(heard);
}

/** Mean power in an octave band. */
function power(x: Float32Array, middle: number): number {
  const high = createBiquad(butterworth('high', middle / Math.SQRT2, RATE));
  const low = createBiquad(butterworth('low', Math.min(middle * Math.SQRT2, 16_000), RATE));
  let sum = 0;
  for (const v of x) sum += low(high(v)) ** 2;
  return sum / Math.max(1, x.length);
}
