import type { Seconds } from '../units/index.js';
import type { LaidBeats } from './lay-beats.js';

/** A beat may lie this far before the first sound: slow attacks. */
const BEFORE: Seconds = 0.05;

/** The beats of the whole music. */
export interface ExtendedBeats {
  readonly beats: Seconds[];
  /** Where the beat after the last would fall, or the end of the sound if that is earlier. */
  readonly end: Seconds;
  /** Number of beats put before the first expected one (negative when some were dropped). */
  readonly shift: number;
}

/** Continues laid beats to the first and the last sound; nothing is counted in the silence around. */
export function extendBeats(laid: LaidBeats, count: number, extent: { start: Seconds; end: Seconds }): ExtendedBeats {
  const earliest = extent.start - BEFORE;
  let first = 0;
  while (laid.timeOf(first - 1) >= earliest) first--;
  while (laid.timeOf(first) < earliest && first < count) first++;
  let last = count - 1;
  while (laid.timeOf(last) >= extent.end - 0.02 && last > first) last--;
  while (laid.timeOf(last + 1) < extent.end - 0.02) last++;
  const beats: number[] = [];
  for (let b = first; b <= last; b++) beats.push(Math.max(laid.timeOf(b), b === first ? 0 : -Infinity));
  return { beats, end: laid.timeOf(last + 1), shift: -first };
}
