import type { Seconds, TrackAnalysis } from '../../src/index.js';

/** The stretch at an end of a track over which another record can be mixed. */
export interface MixRoom {
  readonly bars: number;
  readonly startBar: number;
  readonly endBar: number;
  readonly start: Seconds;
  readonly end: Seconds;
}

/** Room to mix in: the intro. `null` where the track starts in full or no sections are known. */
export function mixInRoom({ sections }: TrackAnalysis): MixRoom | null {
  const first = sections.findIndex((s) => s.function !== 'intro');
  return roomOf(first < 0 ? sections : sections.slice(0, first));
}

/** Room to mix out: the outro. `null` where the track ends in full or no sections are known. */
export function mixOutRoom({ sections }: TrackAnalysis): MixRoom | null {
  const last = sections.findLastIndex((s) => s.function !== 'outro');
  return roomOf(sections.slice(last + 1));
}

function roomOf(sections: TrackAnalysis['sections']): MixRoom | null {
  const [first, last] = [sections.at(0), sections.at(-1)];
  if (first === undefined || last === undefined) return null;
  const { startBar, start } = first;
  return { startBar, endBar: last.endBar, bars: last.endBar - Math.max(startBar, 1) + 1, start, end: last.end };
}
