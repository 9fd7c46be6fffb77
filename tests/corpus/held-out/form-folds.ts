import { FUNCTION_WEIGHTS } from '../../../src/form/weights/index.js';
import { cachedArranged } from '../../form/training/cached.js';
import { fitBoundaries, fitLayers, judged, type JudgedTrack } from '../../form/training/fit.js';
import { fitPlan, planExample } from '../../form/training/fit-plan.js';
import { doesOf, heldOutReadings } from '../../form/training/readings.js';
import { FOLDS, foldsOf } from '../../form/training/folds.js';
import { songTracks, styledTracks } from '../../form/training/songs.js';
import { arrangedTracks, type LearningTrack } from '../../form/training/tracks.js';
import { makerOf } from '../song-front-ends.js';
import type { Fold } from './grid-folds.js';
import type { FoldWeights } from './weights.js';

/**
 * Weights of layers and boundaries, and of whether sections follow what phrases do, for songs of a fold, fitted without it and
 * without the locked makers. What sections do and pick-ups are not learned from songs and stay as they are.
 *
 * @param count arrangements of each kind to learn from; rendered once and kept in the folder of front ends
 */
export function formFolds(corpus: string, cache: string, count: number): (by: Fold, fold: string) => FoldWeights {
  const tracks = [
    ...arrangedTracks(count, cachedArranged(cache)),
    ...songTracks(corpus, cache),
    ...styledTracks(corpus),
    ...styledTracks(corpus, 'planned'),
  ];
  const fifth = foldsOf(tracks);
  const fifths = Array.from({ length: FOLDS }, (_, f) => fitLayers(tracks.filter((t) => fifth(t) !== f)));
  const held = tracks.map((t) => judged(t, fifths[fifth(t)]));
  const first = heldOutReadings(held, fifth);
  const planOf = new Map(
    held.map((t) => {
      const read = first.get(t)!;
      return [t, planExample(t, read, doesOf(t, read.scores, FUNCTION_WEIGHTS, read.first.phraseStarts))];
    }),
  );
  const fit = (some: readonly LearningTrack[], judged: readonly JudgedTrack[]): FoldWeights => ({
    layers: fitLayers(some),
    boundaries: fitBoundaries(judged),
    plan: fitPlan(judged.map((t) => planOf.get(t)!)),
  });
  const cached = new Map<string, FoldWeights>();
  const fifthOf = (maker: string) => {
    const track = tracks.find((t) => t.fold === maker);
    return track === undefined ? -1 : fifth(track);
  };
  return (by, fold) => {
    const key = by === 'maker' ? `fifth ${fifthOf(fold)}` : fold;
    const kept = (t: LearningTrack) =>
      t.kind !== 'song' || (by === 'maker' ? fifth(t) !== fifthOf(fold) : makerOf(t.id).source !== fold);
    const weights = cached.get(key) ?? fit(tracks.filter(kept), held.filter(kept));
    cached.set(key, weights);
    return weights;
  };
}
