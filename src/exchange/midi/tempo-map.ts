import type { Seconds } from '../../units/index.js';

/** From this tick on a quarter note lasts so long. */
export interface TempoStep {
  readonly tick: number;
  readonly microseconds: number;
}

/** A tempo is a whole number of microseconds in 24 bits (Standard MIDI Files 1.0). */
const LONGEST = 0xffffff;
/**
 * How far a beat may lie before and after its time until the tempo is changed. Times are stored to 100 µs, halves rounded
 * up: what lies within is read back as the same time, so that a track can go out and in any number of times. An even
 * 128 BPM needs the whole 50 µs, and a nanosecond for the arithmetic.
 */
const BEFORE: Seconds = 50e-6 + 1e-9;
const AFTER: Seconds = 49.5e-6;
/** Ends and tempos of a step that are tried, for the one after which the next step reaches furthest. */
const TRIED_ENDS = 8;
const TRIED_TEMPOS = 12;

/**
 * Few tempo steps that put every beat within 50 µs of its time: each step holds about as long as one whole number of
 * microseconds will do, counted from where the last step ended and not from where it should have, so that rounding
 * never adds up. Of the steps that will do it takes the one after which the next can hold longest.
 *
 * @param times of the beats, in seconds, ascending; beat k stands at tick k·division
 * @param usual microseconds a beat that are taken wherever others are no better
 * @throws RangeError for beats more than 16.7 s apart
 */
export function tempoMap(times: readonly Seconds[], division: number, usual?: number): TempoStep[] {
  const steps: TempoStep[] = [];
  let here = times[0];
  for (let from = 0; from + 1 < times.length;) {
    const { to, microseconds } = bestRun(times, from, here, usual);
    if (microseconds < 1 || microseconds > LONGEST)
      throw new RangeError(`Beats ${(microseconds / 1e6).toFixed(1)} s apart are further than MIDI can say.`);
    steps.push({ tick: from * division, microseconds });
    here += ((to - from) * microseconds) / 1e6;
    from = to;
  }
  return steps;
}

/** A beat that one tempo reaches with every beat on the way in its place, and the tempos that do. */
interface Run {
  readonly to: number;
  readonly slowest: number;
  readonly fastest: number;
}

function bestRun(
  times: readonly Seconds[],
  from: number,
  here: Seconds,
  usual: number | undefined,
): { to: number; microseconds: number } {
  const runs = runsFrom(times, from, here);
  let best = { to: from, microseconds: 0, reach: -1, off: Infinity };
  for (const { to, fastest, slowest } of runs.slice(-TRIED_ENDS).reverse()) {
    const wanted = usual ?? Math.round(((times[to] - here) / (to - from)) * 1e6);
    const middle = Math.min(slowest, Math.max(fastest, wanted));
    const low = Math.max(fastest, Math.min(middle - TRIED_TEMPOS / 2, slowest - TRIED_TEMPOS));
    for (let microseconds = low; microseconds <= Math.min(slowest, low + TRIED_TEMPOS); microseconds++) {
      const end = here + ((to - from) * microseconds) / 1e6;
      const reach = to + 1 < times.length ? runsFrom(times, to, end).at(-1)!.to : times.length;
      const off = Math.abs(microseconds - wanted);
      if (reach > best.reach || (reach === best.reach && off < best.off)) best = { to, microseconds, reach, off };
    }
    if (to + 1 === times.length) break;
  }
  return best;
}

/** Every beat that one tempo reaches from here, ascending; the next one where no tempo does. */
function runsFrom(times: readonly Seconds[], from: number, here: Seconds): Run[] {
  const runs: Run[] = [];
  let [low, high] = [0, Infinity];
  for (let to = from + 1; to < times.length; to++) {
    low = Math.max(low, ((times[to] - BEFORE - here) / (to - from)) * 1e6);
    high = Math.min(high, ((times[to] + AFTER - here) / (to - from)) * 1e6);
    const [fastest, slowest] = [Math.ceil(low), Math.floor(high)];
    if (fastest > slowest) break;
    runs.push({ to, fastest, slowest });
  }
  const next = Math.round((times[from + 1] - here) * 1e6);
  return runs.length > 0 ? runs : [{ to: from + 1, fastest: next, slowest: next }];
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
