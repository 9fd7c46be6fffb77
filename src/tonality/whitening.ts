import type { Hertz } from '../units/index.js';
import type { SpectralPeaks } from './spectral-peaks.js';

/** Distance of the envelope's points in hertz. */
const STEP: Hertz = 100;
/** A point sees from 0.66 to 1.58 times its frequency, but at least 50 Hz on each side. */
const REACH = { below: 0.34, above: 0.58, least: 50 } as const;
/** Peaks that lie this far below the envelope, in dB, count as nothing. */
const DEPTH = 30;
/** Tilt in dB a hertz that favours the low notes: 20 dB over 4 kHz. */
const TILT = 20 / 4000;
/** Level that stands for nothing, in dB. */
const NOTHING = -200;

/** Measures peaks against the envelope of the spectrum they stand in. */
export interface Whitener {
  /** Takes the spectrum whose peaks come next; magnitudes from 0 Hz to half the rate. */
  envelope(spectrum: Float32Array): void;
  /** Replaces the magnitudes of peaks below `highest` by what stands out: 1 at the envelope and above, less below. */
  whiten(peaks: SpectralPeaks): void;
}

/** One point of the envelope: its bins and their weights. */
interface Point {
  readonly from: number;
  readonly weights: Float64Array;
}

/**
 * Spectral whitening, so that a loud instrument does not drown the notes of the others: peaks are taken relative to an
 * energy-weighted envelope. Settings as in essentia's SpectralWhitening, whose results these are (Gómez, "Tonal
 * Description of Music Audio Signals", PhD thesis 2006; the envelope after Röbel and Rodet, DAFx 2005).
 * @param bins of a spectrum, @param highest frequency in hertz of the peaks
 */
export function createWhitener(bins: number, rate: Hertz, highest: Hertz): Whitener {
  const points = pointsUpTo(highest * 1.2, bins, rate);
  const levels = new Float64Array(points.length);
  return {
    envelope(spectrum) {
      points.forEach((point, p) => (levels[p] = decibels(Math.sqrt(energyAround(point, spectrum)))));
      levels[points.length - 1] = levels[points.length - 2];
    },
    whiten(peaks) {
      for (let i = 0; i < peaks.count; i++) {
        const place = peaks.frequencies[i] / STEP;
        const p = Math.floor(place);
        const envelope = levels[p] + (place - p) * (levels[p + 1] - levels[p]);
        const above = decibels(peaks.magnitudes[i]) - envelope;
        const level = above > 0 ? 0 : above > -DEPTH ? above : NOTHING;
        peaks.magnitudes[i] = 10 ** ((level - TILT * peaks.frequencies[i]) / 20);
      }
    },
  };
}

function pointsUpTo(highest: Hertz, bins: number, rate: Hertz): Point[] {
  const points: Point[] = [];
  const binOf = (frequency: Hertz) => Math.trunc((frequency / (rate / 2)) * (bins - 1) + 0.5);
  for (let f = 0; f <= highest; f += STEP) {
    const from = Math.min(bins - 1, Math.max(0, binOf(f - Math.max(REACH.least, f * REACH.below))));
    const to = Math.min(bins, Math.max(from + 1, binOf(f + Math.max(REACH.least, f * REACH.above))));
    const centre = (from + to) / 2;
    const weights = new Float64Array(to - from);
    for (let i = from; i < to; i++) weights[i - from] = (1 - Math.abs(i - centre) / (to - centre)) ** 4;
    points.push({ from, weights });
  }
  return points;
}

/** Mean energy of a stretch, itself weighted by energy: the envelope follows what is strong. */
function energyAround({ from, weights }: Point, spectrum: Float32Array): number {
  let sum = 0;
  let weight = 0;
  for (let i = 0; i < weights.length; i++) {
    const energy = spectrum[from + i] * spectrum[from + i];
    const w = weights[i] * energy;
    weight += w;
    sum += w * energy;
  }
  return weight > 0 ? sum / weight : 0;
}

function decibels(magnitude: number): number {
  return magnitude < 1e-10 ? NOTHING : 20 * Math.log10(magnitude);
}
