import type { Seconds } from '../../units/index.js';
import type { TrackAnalysis } from '../analysis.js';
import { isSameTempo } from './contradictions.js';
import type { Correction } from './correction.js';

/** Bars around a place where an event is said not to happen, within which it does not. */
const AROUND_BARS = 2;

/**
 * Whether an analysis is as a correction says: a beat lies within a quarter of a beat of where a person heard it (the
 * off-beat would be half a beat away), the one of a phrase within half a beat.
 * @public
 */
export function isMet(correction: Correction, analysis: TrackAnalysis): boolean {
  const half = 30 / analysis.tempo.bpm;
  const near = (t: Seconds, time: Seconds) => Math.abs(t - time) <= half;
  switch (correction.kind) {
    case 'tempo':
      return isSameTempo(analysis.tempo.bpm, correction.bpm);
    case 'metre':
      return analysis.metre.beatsPerBar === correction.beatsPerBar;
    case 'first-one': {
      const first = analysis.bars.find((b) => b.number === 1);
      return first !== undefined && Math.abs(first.start - correction.time) <= half / 2;
    }
    case 'beat':
      return analysis.beats.some((t) => Math.abs(t - correction.time) <= half / 2);
    case 'bar':
      return analysis.bars.some((b) => Math.abs(b.start - correction.time) <= half / 2);
    case 'phrase':
      return analysis.phrases.some((p) => near(p.start, correction.time)) === correction.starts;
    case 'section': {
      const found = analysis.sections.find((s) => near(s.start, correction.time));
      if (!correction.starts) return found === undefined;
      return found !== undefined && (correction.function === null || found.function === correction.function);
    }
    case 'event': {
      const own = analysis.events.filter((e) => e.layer === correction.layer && e.change === correction.change);
      if (correction.happens) return own.some((e) => near(e.time, correction.time));
      const bar = 2 * half * analysis.metre.beatsPerBar;
      return !own.some((e) => Math.abs(e.time - correction.time) <= (AROUND_BARS - 0.5) * bar);
    }
  }
}
