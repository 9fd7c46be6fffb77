import type { MatchPlan, TrackMatch } from '../matching/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { BarNumber, Seconds } from '../units/index.js';
import { beatsOf } from './count-along.js';
import type { ClickBeat } from './sound/clicks.js';
import { RATE } from './sound/stereo.js';
import { fittedMap, inTime, steadyMap, type TimeMap } from './sound/time-map.js';

/**
 * When what happens in a rehearsal, in seconds from its beginning, and which times of the records sound when.
 * @experimental
 */
export interface RehearsalClock {
  readonly mapA: TimeMap;
  readonly mapB: TimeMap;
  readonly start: Seconds;
  readonly swap: Seconds;
  readonly out: Seconds;
  readonly length: Seconds;
  readonly beat: Seconds;
  readonly firstBarA: BarNumber;
  /** A's beats, for clicks. */
  readonly beatsA: readonly ClickBeat[];
}

/** Beats that stray further than this from a steady speed are followed bar by bar. Friberg & Sundberg, JASA 1995: 11.7 ms at 128 BPM. */
const STEADY: Seconds = 0.012;

/**
 * Lays a rehearsal out: A at one speed throughout; B at the one speed that brings its beats nearest to A's in the overlap,
 * by least squares. Where a record drifts, B follows A's beats bar by bar, as a hand on the record would.
 * @param around bars of A before B starts, and of B after A is out
 */
export function layOutRehearsal(
  a: TrackAnalysis,
  b: TrackAnalysis,
  { tempo }: TrackMatch,
  plan: MatchPlan,
  around: number,
): RehearsalClock {
  const beat = 60 / tempo.bpm;
  const bar = beat * a.metre.beatsPerBar;
  const firstA = a.bars.find((x) => x.number >= plan.start.a.bar - around) ?? a.bars[0];
  // on a whole sample, so that a record at its own speed is copied and not filtered
  const begin = Math.round(Math.min(firstA.start, plan.start.a.time) * RATE) / RATE;
  const mapA = steadyMap(0, begin, tempo.rateA);
  const outOf = (timeA: Seconds) => (timeA - mapA[0].in) / tempo.rateA;
  const points = meetingBeats(a, b, tempo.ratio, plan).map((p) => ({ out: outOf(p.a), in: p.b }));
  const straight =
    points.length > 1 ? fittedMap(points) : steadyMap(outOf(plan.meet.a.time), plan.meet.b.time, tempo.rateB);
  const stray = points.reduce((most, p) => Math.max(most, Math.abs(inTime(straight, p.out) - p.in)), 0);
  const mapB = stray > STEADY ? followed(points, a.metre.beatsPerBar, tempo.rateB) : straight;
  const [start, swap, out] = [plan.start.a.time, plan.meet.a.time, plan.end.a.time].map(outOf);
  return {
    mapA,
    mapB,
    start,
    swap,
    out,
    length: out + around * bar,
    beat,
    firstBarA: firstA.number,
    beatsA: beatsOf(a, a.bars)
      .map((click) => ({ ...click, time: outOf(click.time) }))
      .filter((c) => c.time >= 0 && c.time < out),
  };
}

/** The beats of A in the overlap and the times of B that belong on them. */
function meetingBeats(a: TrackAnalysis, b: TrackAnalysis, ratio: number, { start, end, meet }: MatchPlan) {
  const pairs: { readonly a: Seconds; readonly b: Seconds }[] = [];
  for (let i = start.a.beat; i < end.a.beat && i < a.beats.length; i++) {
    const j = meet.b.beat + (i - meet.a.beat) * ratio;
    if (Number.isInteger(j) && j >= 0 && j < b.beats.length) pairs.push({ a: a.beats[i], b: b.beats[j] });
  }
  return pairs;
}

/** A point a bar; before the first and after the last at the usual speed. */
function followed(points: TimeMap, perBar: number, rate: number): TimeMap {
  const kept = points.filter((_, i) => i % perBar === 0 || i === points.length - 1);
  const [first, last] = [kept[0], kept[kept.length - 1]];
  return [{ out: first.out - 1, in: first.in - rate }, ...kept, { out: last.out + 1, in: last.in + rate }];
}
