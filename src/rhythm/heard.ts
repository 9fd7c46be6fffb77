import type { FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import { runningChroma, runningSpectrum, type RunningFeatures } from './change-curves.js';
import { logPowers, type LogPowers } from './log-powers.js';
import { onsetCurves, type OnsetCurves } from './onsets.js';

/** What readings of the beat are judged by. */
export interface Heard {
  readonly frontEnd: FrontEnd;
  readonly logs: LogPowers;
  /** Onset curves, on the track's own clock or on a straightened one. */
  readonly onsets: OnsetCurves;
  /** On the track's own clock always. */
  readonly spectrum: RunningFeatures;
  readonly chroma: RunningFeatures;
  /** Where the track ends, on the clock of the onsets. */
  readonly end: Seconds;
  /** From the clock of the onsets to the track's own. */
  readonly toTime: (time: Seconds) => Seconds;
}

/** Curves of a front end, on its own clock. */
export function hearFrontEnd(frontEnd: FrontEnd): Heard {
  const logs = logPowers(frontEnd.bands);
  return {
    frontEnd,
    logs,
    onsets: onsetCurves(frontEnd, logs),
    spectrum: runningSpectrum(frontEnd, logs),
    chroma: runningChroma(frontEnd),
    end: frontEnd.duration,
    toTime: (t) => t,
  };
}
