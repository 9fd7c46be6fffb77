import type { Bpm, Seconds } from '../units/index.js';
import type { Drift } from './arrangement.js';
import { seededRandom } from './random.js';

/** Periods of the two waves that a drifting tempo is made of, in seconds: slow enough to be followed by ear. */
const DRIFT_PERIODS = [53, 23] as const;
const DRIFT_SHARES = [0.65, 0.35] as const;

/**
 * Times of beats and of the end of the last one (one more than there are tempos): each beat lasts 60 / tempo, the tempo
 * taken at the start of the beat and bent by the drift.
 */
export function beatTimes(
  tempos: readonly Bpm[],
  start: Seconds,
  drift: Drift | undefined,
  seed: number,
): Float64Array {
  const random = seededRandom(seed).fork('drift');
  const phases = DRIFT_PERIODS.map(() => random.between(0, 2 * Math.PI));
  const bend = (time: Seconds): number => {
    if (drift === undefined) return 1;
    const wave = DRIFT_PERIODS.reduce(
      (sum, period, i) => sum + DRIFT_SHARES[i] * Math.sin((2 * Math.PI * time) / period + phases[i]),
      0,
    );
    return 1 + drift.depth * wave;
  };
  const times = new Float64Array(tempos.length + 1);
  times[0] = start;
  if (drift === undefined) {
    // Multiplying within a stretch of one tempo keeps rounding errors from adding up over a thousand beats.
    let from = 0;
    for (let i = 1; i <= tempos.length; i++) {
      if (tempos[i - 1] !== tempos[from]) from = i - 1;
      times[i] = times[from] + ((i - from) * 60) / tempos[from];
    }
    return times;
  }
  for (let i = 0; i < tempos.length; i++) times[i + 1] = times[i] + 60 / (tempos[i] * bend(times[i]));
  return times;
}

/** Time of a position counted in beats, between beats in proportion, and carried on evenly past either end. */
export function timeOfBeat(times: Float64Array, position: number): Seconds {
  const last = times.length - 2;
  const i = Math.min(Math.max(Math.floor(position), 0), last);
  return times[i] + (position - i) * (times[i + 1] - times[i]);
}
