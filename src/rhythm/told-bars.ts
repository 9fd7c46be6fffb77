import type { Seconds } from '../units/index.js';
import type { ExtendedBeats } from './extend-beats.js';
import type { GridConstraints } from './grid.js';
import type { LaidBeats } from './lay-beats.js';

/** A beat that a person points at, by which the phase of the beat is fixed; `undefined` when nobody did. */
export function toldBeat({ downbeatAt, firstOneAt, beatAt }: GridConstraints): Seconds | undefined {
  return downbeatAt ?? firstOneAt ?? beatAt;
}

/** The beats from the first one on when somebody has said where that is; they may begin before the first sound. */
export function beatsFrom(sounding: ExtendedBeats, laid: LaidBeats, firstOneAt: Seconds | undefined): ExtendedBeats {
  if (firstOneAt === undefined) return sounding;
  const last = sounding.beats.length - 1 - sounding.shift;
  const off = (beat: number) => Math.abs(laid.timeOf(beat) - firstOneAt);
  let first = -sounding.shift;
  while (first < last && off(first + 1) < off(first)) first++;
  while (off(first - 1) < off(first) && laid.timeOf(first - 1) >= 0) first--;
  const beats = Array.from({ length: last - first + 1 }, (_, i) => Math.max(laid.timeOf(first + i), 0));
  return { beats, end: sounding.end, shift: -first };
}

/** Indices of the beats on which a bar must start because a person says so. */
export function toldBars(beats: readonly Seconds[], told: GridConstraints): number[] {
  const times = [told.downbeatAt, told.firstOneAt, ...(told.barStartsAt ?? [])].filter((t) => t !== undefined);
  return times.map((t) => nearest(beats, t));
}

function nearest(beats: readonly Seconds[], time: Seconds): number {
  let best = 0;
  for (let b = 1; b < beats.length; b++) if (Math.abs(beats[b] - time) < Math.abs(beats[best] - time)) best = b;
  return best;
}
