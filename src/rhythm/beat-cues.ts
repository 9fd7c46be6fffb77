import { atLag } from './autocorrelation.js';
import { foldOn } from './beat-places.js';
import { ONSET_BANDS, type OnsetCurves } from './onsets.js';
import { phasors } from './phasors.js';
import type { TempoCandidates } from './tempo-candidates.js';

/** Places in the beat at which each band is folded. */
const POSITIONS = 12;

/** Beats at which the autocorrelations are read. */
const LAGS = [1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4, 1, 3 / 2, 2, 3, 4, 6, 8];

/** Multiples of the beat frequency whose Fourier magnitudes are compared. */
const MULTIPLES = [1 / 4, 1 / 2, 3 / 4, 1, 3 / 2, 2, 3, 4];

/** Names of the cues of a beat reading, in the order of `beatCues`. */
export const BEAT_CUES: readonly string[] = [
  ...ONSET_BANDS.flatMap((_, b) => Array.from({ length: POSITIONS }, (_, j) => `fold band ${b} at ${j}/12`)),
  ...LAGS.map((l) => `autocorrelation at ${l.toFixed(2)} beats`),
  ...LAGS.map((l) => `low autocorrelation at ${l.toFixed(2)} beats`),
  ...MULTIPLES.map((m) => `Fourier magnitude at ${m}`),
  'log tempo',
  'log tempo squared',
  'log tempo cubed',
];

/** What does not depend on the phase is worked out once for a tempo. */
export type TempoCues = readonly number[];

export function tempoCues(onsets: OnsetCurves, candidates: TempoCandidates, frequency: number): TempoCues {
  const lag = onsets.rate / frequency;
  const multiples = MULTIPLES.map((m) => m * frequency);
  const magnitudes = phasors(onsets.all, onsets.rate, onsets.start, multiples, onsets.rows).map(({ re, im }) =>
    Math.hypot(re[0], im[0]),
  );
  const sum = magnitudes.reduce((a, b) => a + b, 0) || 1;
  const octave = Math.log2((60 * frequency) / 125);
  return [
    ...LAGS.map((l) => atLag(candidates.acf, l * lag)),
    ...LAGS.map((l) => atLag(candidates.acfLow, l * lag)),
    ...magnitudes.map((m) => m / sum),
    octave,
    octave ** 2,
    octave ** 3,
  ];
}

/**
 * The cues of one reading: each band folded on its beats at twelve places (as a share of the band's mean, in logs), then
 * those of its tempo.
 * @param bands onset curves of the four bands, smoothed
 */
export function beatCues(
  onsets: OnsetCurves,
  bands: readonly Float32Array[],
  beats: Float64Array,
  tempo: TempoCues,
): number[] {
  return [...bands.flatMap((band) => fold(onsets, band, beats)), ...tempo];
}

function fold(onsets: OnsetCurves, band: Float32Array, beats: Float64Array): number[] {
  // Curves have mean 1, so a fold without any rhythm is 1 everywhere and its logarithm 0.
  return Array.from(foldOn(band, onsets, beats, POSITIONS), (s) => Math.log(0.1 + s / Math.max(beats.length - 1, 1)));
}
