import { viewOf, type TrackView } from '../view.js';
import type { PageData } from '../data.js';

/** What the page is about at the moment. */
export interface State {
  readonly data: PageData;
  track: number;
  /** Chosen reading of each track. */
  readonly reading: number[];
  view: TrackView;
  /** Phrase that is played round and round, by number; `null` when the track goes on. */
  loop: number | null;
}

/** The state at the start: the first track under its first reading. */
export function firstState(data: PageData): State {
  return {
    data,
    track: 0,
    reading: data.tracks.map(() => 0),
    view: viewOf(data.tracks[0].readings[0]),
    loop: null,
  };
}

/** Goes to a track, and to a reading of it when one is given. */
export function choose(state: State, track: number, reading = state.reading[track]): void {
  state.track = track;
  state.reading[track] = reading;
  state.view = viewOf(state.data.tracks[track].readings[reading]);
  state.loop = null;
}

/** The title of a track; its file name when it has none. */
export function titleOf(view: TrackView): string {
  const { tags, file } = view.analysis.source;
  return tags.title?.trim() || file.split(/[\\/]/).at(-1)!;
}
