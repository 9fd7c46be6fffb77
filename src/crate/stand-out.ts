import { median } from '../units/index.js';
import type { TrackOutline } from './outline.js';

/** In what a track stands out from the crate. @experimental */
export const STAND_OUT_KINDS = ['tempo', 'length', 'loudness'] as const;

/** A track that lies far from the others in one respect. @experimental */
export interface StandOut<T extends TrackOutline> {
  readonly track: T;
  readonly kind: (typeof STAND_OUT_KINDS)[number];
  /** Beats a minute, seconds or LUFS. */
  readonly value: number;
  readonly median: number;
  /** Distance from the median in (scaled) median absolute deviations. */
  readonly deviations: number;
}

/** Further than so many median absolute deviations: Leys et al., "Detecting outliers", J. Exp. Soc. Psychology 2013. */
const FAR = 3;
/** Makes the median absolute deviation of a normal distribution its standard deviation (derived). */
const TO_STANDARD = 1.4826;
/** Fewer tracks have no middle worth speaking of. */
const LEAST_TRACKS = 5;
/** A crate of all but equal values has no deviation to speak of: below this nothing stands out. */
const LEAST: Record<StandOut<TrackOutline>['kind'], number> = { tempo: 1, length: 10, loudness: 0.5 };

const VALUE: Record<StandOut<TrackOutline>['kind'], (track: TrackOutline) => number | null> = {
  tempo: ({ tempo }) => tempo.bpm,
  length: ({ source }) => source.durationSeconds,
  loudness: ({ loudness }) => loudness.integratedLufs,
};

/**
 * The tracks of a crate that lie far from its middle, furthest first. A track can stand out in several ways.
 * @experimental
 */
export function standingOut<T extends TrackOutline>(tracks: readonly T[]): StandOut<T>[] {
  return STAND_OUT_KINDS.flatMap((kind) => {
    const known = tracks.flatMap((track) => {
      const value = VALUE[kind](track);
      return value === null ? [] : [{ track, value }];
    });
    if (known.length < LEAST_TRACKS) return [];
    const middle = median(known.map(({ value }) => value));
    const spread = TO_STANDARD * median(known.map(({ value }) => Math.abs(value - middle)));
    const scale = Math.max(spread, LEAST[kind]);
    return known
      .map(({ track, value }) => ({ track, kind, value, median: middle, deviations: Math.abs(value - middle) / scale }))
      .filter(({ deviations }) => deviations > FAR);
  }).sort((a, b) => b.deviations - a.deviations);
}
