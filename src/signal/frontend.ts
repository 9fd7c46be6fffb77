import type { CurveSet, Hertz, Seconds } from '../units/index.js';

/**
 * Identity of the front end. Weights are fitted on its numbers, so it changes whenever a window, hop, band edge or
 * scaling below changes.
 */
export const FRONT_END_ID = 'fe1';

/** The one rate at which tracks are analysed; other rates are resampled to it with an anti-aliasing filter. */
export const ANALYSIS_RATE: Hertz = 44_100;

/** Coarse frames: 2048-sample Hann window (46 ms), centred, every 441 samples (10 ms). */
export const COARSE = { window: 2048, hop: 441, rate: 100 } as const;

/** Fine energies: one value a millisecond. */
export const FINE = { rate: 1000 } as const;

/** Chroma frames: 4096 samples at a quarter of the analysis rate (372 ms), every 80 ms. */
export const CHROMA = { window: 4096, decimation: 4, hop: 882, rate: 12.5, lowest: 55, highest: 1760 } as const;

/**
 * Everything later stages know about the sound of a track: linear powers, nothing normalised yet. Memory is about
 * 32 kB a second of audio, whatever the file.
 * @experimental
 */
export interface FrontEnd {
  readonly id: typeof FRONT_END_ID;
  readonly duration: Seconds;
  /** Power per frequency band, `BAND_EDGES.length − 1` columns, 100 rows a second, row r centred at r/100 s. */
  readonly bands: CurveSet;
  /** Power of the middle (L+R)/2 and of the side (L−R)/2 signal, two columns, on the clock of `bands`. Side is 0 for mono. */
  readonly stereo: CurveSet;
  /** Energies of whole milliseconds, three columns: first difference (all frequencies), below 150 Hz, above 5 kHz. */
  readonly fine: CurveSet;
  /** Power per pitch class C…B, 12 columns, 12.5 rows a second. */
  readonly chroma: CurveSet;
  /** Mean power of the middle signal, the reference for every later normalisation. */
  readonly meanPower: number;
}

/**
 * Band edges in hertz: single bins of the coarse spectrum (21.5 Hz) up to 215 Hz, where the kick and the bass live,
 * then six bands an octave up to 16 kHz.
 */
export const BAND_EDGES: readonly Hertz[] = bandEdges();

function bandEdges(): Hertz[] {
  const bin = ANALYSIS_RATE / COARSE.window;
  const edges: number[] = [];
  for (let k = 1; k <= 10; k++) edges.push((k - 0.5) * bin);
  const first = 9.5 * bin;
  for (let f = first * 2 ** (1 / 6); f < 16_000; f *= 2 ** (1 / 6)) edges.push(f);
  edges.push(16_000);
  return edges;
}

/** Number of columns of `FrontEnd.bands`. */
export const BAND_COUNT = BAND_EDGES.length - 1;

/** The columns of `FrontEnd.bands` whose centre lies in a frequency range: first inclusive, last exclusive. */
export function bandColumns(low: Hertz, high: Hertz): { first: number; last: number } {
  const centre = (k: number) => Math.sqrt(Math.max(BAND_EDGES[k], 1) * BAND_EDGES[k + 1]);
  let first = 0;
  while (first < BAND_COUNT && centre(first) < low) first++;
  let last = first;
  while (last < BAND_COUNT && centre(last) <= high) last++;
  return { first, last };
}
