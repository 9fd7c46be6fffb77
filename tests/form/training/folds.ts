import type { LearningTrack } from './tracks.js';

export const FOLDS = 5;

/**
 * Which fifth a track is held out with, by the name of its fold. Planned pieces are put behind the others, so that those are
 * held out together as they were without them.
 */
export function foldsOf(tracks: readonly LearningTrack[]): (track: LearningTrack) => number {
  const names = (some: readonly LearningTrack[]) => some.map((t) => t.fold).sort();
  const [planned, others] = [true, false].map((is) => names(tracks.filter((t) => (t.kind === 'planned') === is)));
  const folds = [...new Set([...others, ...planned])];
  return (t) => folds.indexOf(t.fold) % FOLDS;
}
