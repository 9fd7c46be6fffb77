import type { Seconds } from '../../units/index.js';

/** From this tick on a quarter note lasts so long. */
export interface TempoStep {
  readonly tick: number;
  readonly microseconds: number;
}

/** A tempo is a whole number of microseconds in 24 bits (Standard MIDI Files 1.0). */
const LONGEST = 0xffffff;
/** How far a beat may lie from its time before the tempo is changed: the times are stored to 100 µs, rounded by 50. */
const TOLERANCE: Seconds = 60e-6;

/**
 * The fewest tempo steps that put every beat within 60 µs of its time: each step holds as long as one whole number of
 * microseconds will do, counted from where the last step ended and not from where it should have, so that rounding
 * never adds up.
 *
 * @param times of the beats, in seconds, ascending; beat k stands at tick k·division
 * @param usual microseconds a beat that are taken wherever they will do
 * @throws RangeError for beats more than 16.7 s apart
 */
export function tempoMap(times: readonly Seconds[], division: number, usual?: number): TempoStep[] {
  const steps: TempoStep[] = [];
  let here = times[0];
  for (let from = 0; from + 1 < times.length;) {
    const run = longestRun(times, from, here, usual);
    if (run.microseconds < 1 || run.microseconds > LONGEST)
      throw new RangeError(`Beats ${(run.microseconds / 1e6).toFixed(1)} s apart are further than MIDI can say.`);
    steps.push({ tick: from * division, microseconds: run.microseconds });
    here += ((run.to - from) * run.microseconds) / 1e6;
    from = run.to;
  }
  return steps;
}

/** The furthest beat that one tempo reaches from here with every beat on the way in its place, and that tempo. */
function longestRun(
  times: readonly Seconds[],
  from: number,
  here: Seconds,
  usual: number | undefined,
): { to: number; microseconds: number } {
  let [low, high] = [0, Infinity];
  let best = { to: from + 1, microseconds: Math.round((times[from + 1] - here) * 1e6) };
  for (let to = from + 1; to < times.length; to++) {
    low = Math.max(low, ((times[to] - TOLERANCE - here) / (to - from)) * 1e6);
    high = Math.min(high, ((times[to] + TOLERANCE - here) / (to - from)) * 1e6);
    const [first, last] = [Math.ceil(low), Math.floor(high)];
    if (first > last) break;
    const wanted = usual ?? Math.round(((times[to] - here) / (to - from)) * 1e6);
    best = { to, microseconds: Math.min(last, Math.max(first, wanted)) };
  }
  return best;
}

/** Gives the time of any tick under a tempo map whose first step stands at tick 0. */
export function tempoClock(steps: readonly TempoStep[], division: number): (tick: number) => Seconds {
  const starts = new Float64Array(steps.length);
  for (let i = 1; i < steps.length; i++) {
    const { tick, microseconds } = steps[i - 1];
    starts[i] = starts[i - 1] + ((steps[i].tick - tick) / division) * (microseconds / 1e6);
  }
  return (tick) => {
    let [low, high] = [0, steps.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (steps[middle].tick <= tick) low = middle;
      else high = middle - 1;
    }
    return starts[low] + ((tick - steps[low].tick) / division) * (steps[low].microseconds / 1e6);
  };
}
