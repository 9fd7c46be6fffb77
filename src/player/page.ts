import type { TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';
import { pageAssets } from './assets.js';
import type { PageData } from './data.js';
import { pageFrame } from './frame.js';
import { PAGE_BODY } from './skeleton.js';

/** A track of the page. */
export interface PageTrack {
  readonly analysis: TrackAnalysis;
  /** Where the sound is, as a URL relative to the page, or the sound itself as a data URL. */
  readonly audio: string;
  /** The stretch of the track that the sound holds, where that is not all of it. Seconds of the track. */
  readonly excerpt?: { readonly from: Seconds; readonly to: Seconds };
  /** The same track analysed under the other tempos of its doubt; each is offered as a correction. */
  readonly alternatives?: readonly TrackAnalysis[];
}

export interface PageOptions {
  /** Name of the crate, shown on top and in the title bar. */
  readonly title?: string;
}

/**
 * One HTML page that holds everything but the sound: the crate, the ladder of every track, and a player that counts
 * along. It works from a file, offline, and asks for nothing but the audio files it names.
 */
export function renderPage(tracks: readonly PageTrack[], options: PageOptions = {}): string {
  const title = options.title ?? 'Crate';
  const data: PageData = {
    title,
    tracks: tracks.map((t) => ({
      audio: t.audio,
      ...(t.excerpt ? { excerpt: t.excerpt } : {}),
      readings: [t.analysis, ...(t.alternatives ?? [])],
    })),
  };
  return pageFrame({ title, body: PAGE_BODY, data, media: `'self' file: data: blob:` }, pageAssets('track'));
}
