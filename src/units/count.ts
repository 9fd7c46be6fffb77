import type { BarNumber, Bpm, Seconds } from './quantities.js';

/**
 * Bars in a group. People count "1 2 3 4, 2 2 3 4, 3 2 3 4, 4 2 3 4": the first word is the bar's number in the group.
 * @public
 */
export const BARS_IN_GROUP = 4;

/**
 * Duration of one beat.
 * @public
 * @example beatPeriod(124) // 0.4838709677419355
 */
export function beatPeriod(bpm: Bpm): Seconds {
  return 60 / bpm;
}

/**
 * A clock time as on a player: minutes, seconds and tenths.
 * @public
 * @example clock(72.34) // '1:12.3'
 */
export function clock(time: Seconds, decimals = 1): string {
  const sign = time < 0 ? '−' : '';
  const scale = 10 ** decimals;
  const units = Math.round(Math.abs(time) * scale);
  const minutes = Math.floor(units / (60 * scale));
  const rest = units - minutes * 60 * scale;
  const seconds = (rest / scale).toFixed(decimals).padStart(decimals > 0 ? 3 + decimals : 2, '0');
  return `${sign}${minutes}:${seconds}`;
}

/**
 * A count as it is printed: bar of the group, beat of the bar.
 * @public
 * @example countLabel(3, 1) // '3 · 1'
 */
export function countLabel(groupBar: number, beat: number): string {
  return `${groupBar} · ${beat}`;
}

/**
 * Bar numbers of an inclusive range as text.
 * @public
 * @example barRange(41, 58) // '41–58'
 */
export function barRange(first: BarNumber, last: BarNumber): string {
  return first === last ? `${first}` : `${first}–${last}`;
}
