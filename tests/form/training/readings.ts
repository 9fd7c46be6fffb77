import { boundaryScores } from '../../../src/form/boundary-scores.js';
import { bestReading, decode, type Reading } from '../../../src/form/decode.js';
import { functionCues } from '../../../src/form/function-cues.js';
import {
  changeCues,
  functionChain,
  phraseFunctions,
  type FunctionWeights,
  type PhraseFunctions,
} from '../../../src/form/functions.js';
import type { BoundaryScores } from '../../../src/form/lattice.js';
import { PHRASE_BARS } from '../../../src/form/lengths.js';
import { BOUNDARY_SCALES, LENGTH_COSTS } from '../../../src/form/weights/index.js';
import { fitBoundaries, type BoundaryModels, type JudgedTrack } from './fit.js';

/** What the decoder adds up, and the reading without what phrases do. */
export interface FirstReading {
  readonly scores: BoundaryScores;
  readonly first: Reading;
}

/** First readings by weights that have not seen the track's fold. */
export function heldOutReadings(
  tracks: readonly JudgedTrack[],
  foldOf: (track: JudgedTrack) => number,
): Map<JudgedTrack, FirstReading> {
  const readings = new Map<JudgedTrack, FirstReading>();
  for (const fold of new Set(tracks.map(foldOf))) {
    const models = fitBoundaries(tracks.filter((t) => foldOf(t) !== fold));
    for (const t of tracks) if (foldOf(t) === fold) readings.set(t, firstReading(t, models));
  }
  return readings;
}

function firstReading(t: JudgedTrack, models: BoundaryModels): FirstReading {
  const scores = boundaryScores(t.boundary, { ...models, ...BOUNDARY_SCALES });
  const readings = PHRASE_BARS.map((usual) => decode(t.features.bars, scores, LENGTH_COSTS, usual));
  const first = bestReading(readings, LENGTH_COSTS);
  return { scores, first };
}

/** What phrases do. @param joined phrases that do what the one before them does */
export function doesOf(
  t: JudgedTrack,
  scores: BoundaryScores,
  weights: FunctionWeights,
  starts: readonly number[],
  joined?: readonly boolean[],
): PhraseFunctions {
  const chain = functionChain(functionCues(t.features, t.tracks, starts), changeCues(scores, starts), weights);
  const free = starts.map(() => null);
  return phraseFunctions(chain, free, joined);
}
