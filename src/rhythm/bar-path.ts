import type { BarJump, BarPath } from './bar-jumps.js';
import { modulo } from './modulo.js';
import { places, type OddBar } from './odd-bar-cues.js';
import { findOddBars } from './odd-bars.js';
import { placeOddBars } from './place-odd-bars.js';
import type { SlipEvidence } from './slips.js';
import { toldPath } from './told-path.js';

/** Nats that a bar's evidence is worth per unit of the whole-track score. */
export const EVIDENCE = 0.025;

/**
 * Where bars start: every `beatsPerBar` beats but for the odd bars, at the phase for which most speaks.
 * @param evidence for a bar starting on each beat
 * @param fixed beats on which a bar must start
 */
export function barPath(
  evidence: Float64Array,
  beatsPerBar: number,
  fixed: readonly number[] = [],
  slip: SlipEvidence = () => 0,
): BarPath {
  const nats = evidence.map((v) => EVIDENCE * v);
  const odd = findOddBars({ evidence: nats, beatsPerBar, slip });
  const counted = likeliestStarts(nats, beatsPerBar, odd, odd[0]?.phase ?? 0, fixed);
  const must = new Set(fixed);
  if (!fixed.every((b) => counted.includes(b))) return toldPath(nats, beatsPerBar, fixed, slip);
  const starts = placeOddBars(counted, beatsPerBar, (beat) => nats[beat] ?? 0, slip, must);
  const jumps = starts.flatMap((beat, i): BarJump[] => {
    if (i === 0 || beat - starts[i - 1] === beatsPerBar) return [];
    const off = (o: OddBar) => Math.abs(o.beat - beat);
    return [{ beat, gain: odd.reduce((near, o) => (off(o) < off(near) ? o : near)).odds }];
  });
  return { starts, jumps };
}

/**
 * The starts of the phase that meets most of the fixed beats, then of the one with the most evidence. Another phase than the
 * one that the odd bars were found in has them as many beats later.
 */
function likeliestStarts(
  evidence: ArrayLike<number>,
  m: number,
  odd: readonly OddBar[],
  found: number,
  fixed: readonly number[],
): number[] {
  const at = (phase: number) => startsAt(evidence.length, m, odd, phase, modulo(phase - found, m));
  if (fixed.length === 0 && odd.length > 0) return at(found);
  const sum = (starts: readonly number[]) => starts.reduce((s, b) => s + evidence[b], 0) / Math.max(starts.length, 1);
  const met = (starts: readonly number[]) => fixed.filter((b) => starts.includes(b)).length;
  const all = Array.from({ length: m }, (_, phase) => at(phase));
  return all.reduce((a, b) => (met(b) > met(a) || (met(b) === met(a) && sum(b) > sum(a)) ? b : a));
}

function startsAt(beats: number, m: number, odd: readonly OddBar[], phase: number, later: number): number[] {
  const moved = odd.map((o) => ({ ...o, beat: o.beat + later }));
  const place = places(beats, moved);
  // The surplus beats of a bar are no bar of their own.
  const inside = (b: number) => moved.some((o) => b < o.beat && b >= o.beat - o.surplus);
  const starts: number[] = [];
  for (let b = 0; b < beats; b++) if (modulo(place[b], m) === phase && !inside(b)) starts.push(b);
  return starts;
}
