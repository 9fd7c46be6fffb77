import { beatsText, isRight } from '../tap-pattern.js';
import type { TappedOne } from '../taps.js';

/** "bar 33: 24 ms late", "bar 33: 4 beats late (a bar)". */
export function errorWords(one: TappedOne, beatsPerBar: number): string {
  if (one.errorBeats === null || one.errorSeconds === null) return `bar ${one.bar}: no tap`;
  if (!isRight(one)) return `bar ${one.bar}: ${beatsText(Math.round(one.errorBeats), beatsPerBar)}`;
  const ms = Math.round(one.errorSeconds * 1000);
  const beats = Math.abs(one.errorBeats).toFixed(2);
  return `bar ${one.bar}: ${ms === 0 ? 'in time' : `${Math.abs(ms)} ms (${beats} beats) ${ms < 0 ? 'early' : 'late'}`}`;
}
