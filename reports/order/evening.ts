import type { RunningOrder, Seconds, TrackAnalysis } from '../../src/index.js';

/** A record on the clock of the evening. */
export interface EveningTrack {
  readonly track: TrackAnalysis;
  readonly entry: RunningOrder['tracks'][number];
  /** When it starts and when the next one does, counted from the first; as if no tempo were changed. */
  readonly from: Seconds;
  readonly to: Seconds;
}

/** Lays a running order on a clock: each record starts where the plan starts it on the one before. */
export function eveningOf(order: RunningOrder, tracks: readonly TrackAnalysis[]): EveningTrack[] {
  let clock = 0;
  let within = 0;
  return order.tracks.map((entry, i) => {
    const track = tracks[entry.index];
    const plan = order.steps[i]?.match?.plans[0];
    const leaves = plan?.start.a.time ?? track.source.durationSeconds;
    const from = clock;
    clock += Math.max(0, leaves - within);
    within = plan?.start.b.time ?? 0;
    return { track, entry, from, to: clock };
  });
}
