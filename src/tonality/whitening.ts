import type { Hertz } from '../units/index.js';

/** Distance of the envelope's points in hertz. */
const STEP: Hertz = 100;
/** A point sees from 0.66 to 1.58 times its frequency, but at least 50 Hz on each side. */
const REACH = { below: 0.34, above: 0.58, least: 50 } as const;

/**
 * Spectral whitening, so that a loud instrument does not drown the notes of the others: peaks are taken relative to an
 * energy-weighted envelope. Settings as in essentia's SpectralWhitening, whose results these are (Gómez, "Tonal
 * Description of Music Audio Signals", PhD thesis 2006; the envelope after Röbel and Rodet, DAFx 2005): peaks that lie
 * 30 dB below the envelope count as nothing, which −200 dB stands for; a tilt of 20 dB over 4 kHz favours the low notes.
 */
export const WHITENING = { step: STEP, depth: 30, tilt: 20 / 4000, nothing: -200 } as const;

/** The points of the envelope: the first bin that each sees and how many, in turn, and the weights of all those bins. */
export interface EnvelopePoints {
  readonly stretches: readonly number[];
  readonly weights: readonly number[];
}

/** @param highest frequency in hertz of the peaks, @param bins of a spectrum, the last at half the rate */
export function envelopePoints(highest: Hertz, bins: number, rate: Hertz): EnvelopePoints {
  const stretches: number[] = [];
  const weights: number[] = [];
  const binOf = (frequency: Hertz) => Math.trunc((frequency / (rate / 2)) * (bins - 1) + 0.5);
  for (let f = 0; f <= highest * 1.2; f += STEP) {
    const from = Math.min(bins - 1, Math.max(0, binOf(f - Math.max(REACH.least, f * REACH.below))));
    const to = Math.min(bins, Math.max(from + 1, binOf(f + Math.max(REACH.least, f * REACH.above))));
    const centre = (from + to) / 2;
    stretches.push(from, to - from);
    for (let i = from; i < to; i++) weights.push((1 - Math.abs(i - centre) / (to - centre)) ** 4);
  }
  return { stretches, weights };
}
