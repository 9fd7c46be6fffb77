import type { TrackDone } from '../crate/index.js';

/** Tells how fast tracks are done and how long the rest will take. */
export interface Pace {
  /** @returns a few words, empty while nothing can be said. @example '4.2 a minute, 12 min left' */
  note(done: TrackDone): string;
}

/** The first tracks of a run still load the program. */
const TRACKS_BEFORE_A_WORD = 2;

/** Starts the clock. What comes out of the cache says nothing about how long the rest will take, and is not counted. */
export function startPace(now: () => number = () => performance.now()): Pace {
  const start = now();
  let analysed = 0;
  return {
    note({ outcome, done, total }) {
      if (outcome === 'analysed' || outcome === 'failed') analysed++;
      const left = total - done;
      if (analysed < TRACKS_BEFORE_A_WORD || left === 0) return '';
      const seconds = (now() - start) / 1000 / analysed;
      return `${rate(seconds)}, ${duration(left * seconds)} left`;
    },
  };
}

function rate(secondsATrack: number): string {
  const aMinute = 60 / secondsATrack;
  return `${aMinute >= 10 ? aMinute.toFixed(0) : aMinute.toFixed(1)} a minute`;
}

function duration(seconds: number): string {
  if (seconds < 50) return `${Math.max(Math.ceil(seconds / 10) * 10, 10)} s`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 100 ? `${minutes} min` : `${(minutes / 60).toFixed(1)} h`;
}
