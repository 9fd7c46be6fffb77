import { barFeatures, bandedSimilarity, checkerboard, similarityAt, stepTable, type Part } from '../form/index.js';
import { ONSET_BANDS, onsetCurves } from '../rhythm/index.js';
import type { FrontEnd } from '../signal/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { CurveSet, Seconds } from '../units/index.js';
import { gridOf } from './gridof.js';
import { levelCurves } from './levels.js';
import { phaseHistogram, type PhaseHistogram } from './phase.js';
import { tempogram, type Tempogram } from './tempogram.js';

/** Half-sizes of the novelty's checkerboard, in bars. @experimental */
export const NOVELTY_HALVES = [4, 8, 16] as const;
/** One of `NOVELTY_HALVES`, in bars. @experimental */
export type NoveltyHalf = (typeof NOVELTY_HALVES)[number];

/** The parts of the sound whose change is followed: patterns low, middle and high, and the harmony. @experimental */
export const NOVELTY_PARTS = ['low', 'mid', 'high', 'chroma'] as const satisfies readonly Part[];
/** One of `NOVELTY_PARTS`. @experimental */
export type NoveltyPart = (typeof NOVELTY_PARTS)[number];

/** Similarity of every bar with every other, from 0 to 1: `values[i * bars + j]`. @experimental */
export interface BarSimilarity {
  readonly values: Float32Array;
  readonly bars: number;
}

/** What a notebook draws beside an analysis. It is recomputed from the audio, never stored. @experimental */
export interface TrackCurves {
  readonly duration: Seconds;
  /** RMS level: below 150 Hz, below 2.5 kHz, everything; see levelCurves. */
  readonly levels: CurveSet;
  /** Onset strength in four bands, mean 1 each; the bands are ONSET_BANDS. */
  readonly onsets: CurveSet;
  /** Change between bar b − 1 and bar b, one value a bar of the analysis, at least 0. */
  readonly novelty: Readonly<Record<NoveltyPart, Readonly<Record<NoveltyHalf, Float32Array>>>>;
  readonly tempogram: Tempogram;
  readonly similarity: BarSimilarity;
  readonly phase: PhaseHistogram;
}

/**
 * The curves and matrices behind an analysis: the same front end, onset curves and bar features that it was made from.
 * @experimental
 * @param frontEnd of the same audio
 */
export function computeCurves(frontEnd: FrontEnd, analysis: TrackAnalysis): TrackCurves {
  const onsets = onsetTable(frontEnd);
  const grid = gridOf(analysis);
  const features = barFeatures(frontEnd, grid, stepTable(frontEnd, grid));
  const bars = grid.bars.length;
  const similarity = Object.fromEntries(
    NOVELTY_PARTS.map((part) => [part, bandedSimilarity(features[part], bars, Math.max(bars - 1, 0))]),
  ) as Record<NoveltyPart, ReturnType<typeof bandedSimilarity>>;
  const novelty = Object.fromEntries(
    NOVELTY_PARTS.map((part) => {
      const curves = NOVELTY_HALVES.map((half) => [half, positive(checkerboard(similarity[part], half))]);
      return [part, Object.fromEntries(curves)];
    }),
  ) as TrackCurves['novelty'];
  const all = new Float32Array(bars * bars);
  for (let i = 0; i < bars; i++) {
    for (let j = 0; j < bars; j++) {
      let sum = 0;
      for (const part of NOVELTY_PARTS) sum += i === j ? 1 : similarityAt(similarity[part], i, j);
      all[i * bars + j] = sum / NOVELTY_PARTS.length;
    }
  }
  return {
    duration: frontEnd.duration,
    levels: levelCurves(frontEnd),
    onsets,
    novelty,
    tempogram: tempogram(onsets),
    similarity: { values: all, bars },
    phase: phaseHistogram(frontEnd, analysis.beats),
  };
}

function onsetTable(frontEnd: FrontEnd): CurveSet {
  const { bands, rows, rate, start } = onsetCurves(frontEnd);
  const columns = ONSET_BANDS.length;
  const values = new Float32Array(rows * columns);
  bands.forEach((band, c) => band.forEach((value, r) => (values[r * columns + c] = value)));
  return { values, columns, rows, rate, start };
}

function positive(curve: Float64Array): Float32Array {
  return Float32Array.from(curve, (value) => Math.max(0, value));
}
