import type { TrackAnalysis } from '../../track/index.js';
import type { Seconds } from '../../units/index.js';
import type { ForeignCount } from './count.js';

/** Two beats nearer than this are one. Dixon, J. New Music Research 2001: 70 ms; it is the window of the field's scores. */
const WINDOW: Seconds = 0.07;
/** Two section starts nearer than this are one (Turnbull et al., ISMIR 2007: 0.5 s). */
const SECTION_WINDOW: Seconds = 0.5;

/** How many of a foreign count's times an analysis has too. @experimental */
export interface Agreement {
  /** Of these, so many. */
  readonly found: number;
  /** Times within the stretch that both count. */
  readonly of: number;
}

/** How far an analysis agrees with a foreign count, within the stretch that both count. @experimental */
export interface CountAgreement {
  /** Within 70 ms. */
  readonly beats: Agreement;
  /** Within 70 ms. */
  readonly downbeats: Agreement;
  /** Within half a second. */
  readonly sections: Agreement;
}

/** Compares what is counted now with what a foreign file says. @experimental */
export function agreementWith(count: ForeignCount, { beats, bars, sections }: TrackAnalysis): CountAgreement {
  const [first, last] = [beats[0] ?? 0, beats[beats.length - 1] ?? 0];
  const within = (theirs: readonly Seconds[], ours: readonly Seconds[], window: Seconds): Agreement => {
    const both = theirs.filter((t) => t >= first - window && t <= last + window);
    return { found: both.filter((t) => ours.some((o) => Math.abs(o - t) <= window + 1e-9)).length, of: both.length };
  };
  return {
    beats: within(count.beats, beats, WINDOW),
    downbeats: within(
      count.downbeats,
      bars.map((b) => b.start),
      WINDOW,
    ),
    sections: within(
      count.sections.map((s) => s.time),
      sections.map((s) => s.start),
      SECTION_WINDOW,
    ),
  };
}
