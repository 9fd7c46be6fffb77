import { BARS_IN_GROUP } from '../units/index.js';
import type { SlipEvidence } from './slips.js';

/** That an odd bar ends a group of four, counted from the first bar, is worth so much (nats; common practice, no source). */
const GROUP_END = 2.5;
/** Nats that a unit of slip evidence is worth in telling neighbouring bars apart: it rises and falls over several bars. */
const SLIP = 0.22;

/**
 * Puts each odd bar on the neighbouring bar on which it is likelier; only one start moves then. That beats were added or
 * dropped is told by many bars on either side; on which bar, by little, so that the habit of music counts.
 * @param evidence in nats for a bar starting on each beat
 * @param fixed beats on which a bar must start; they do not move
 */
export function placeOddBars(
  starts: readonly number[],
  beatsPerBar: number,
  evidence: (beat: number) => number,
  slip: SlipEvidence,
  fixed: ReadonlySet<number>,
): number[] {
  const out = [...starts];
  const whole = (i: number) => out[i + 1] - out[i] === beatsPerBar;
  // The bar from start i − 1 to start i is the i-th.
  for (let i = 1; i < out.length; i++) {
    const beats = out[i] - out[i - 1];
    if (beats === beatsPerBar) continue;
    const worth = (bar: number, moved: number, after: number) =>
      evidence(moved) + SLIP * slip(after, beatsPerBar - beats) + (bar % BARS_IN_GROUP === 0 ? GROUP_END : 0);
    const [before, start, next] = [out[i - 1], out[i], out[i + 1]];
    const later = before + beatsPerBar;
    const earlier = out[i - 2] + beats;
    const gainLater = whole(i) && !fixed.has(start) ? worth(i + 1, later, next) - worth(i, start, start) : 0;
    const gainEarlier =
      i > 1 && whole(i - 2) && !fixed.has(before) ? worth(i - 1, earlier, earlier) - worth(i, before, start) : 0;
    if (gainLater > Math.max(gainEarlier, 0)) out[i++] = later;
    else if (gainEarlier > 0) out[i - 1] = earlier;
  }
  return out;
}
