import type { TrackAnalysis } from '../track/index.js';

/** What the script finds in the page. */
export interface PageData {
  readonly title: string;
  readonly tracks: readonly PageDataTrack[];
}

/** A track: where its sound is, and its readings, the one of the analysis first. */
export interface PageDataTrack {
  readonly audio: string;
  readonly readings: readonly TrackAnalysis[];
}
