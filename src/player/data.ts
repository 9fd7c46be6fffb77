import type { TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';

/** What the script finds in the page. */
export interface PageData {
  readonly title: string;
  readonly tracks: readonly PageDataTrack[];
}

/** A track: where its sound is, and its readings, the one of the analysis first. */
export interface PageDataTrack {
  readonly audio: string;
  /** The stretch of the track that the sound holds, where that is not all of it. */
  readonly excerpt?: { readonly from: Seconds; readonly to: Seconds };
  readonly readings: readonly TrackAnalysis[];
}
