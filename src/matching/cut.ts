import { planConfidence } from './confidence.js';
import type { TrackCount } from './count.js';
import { placeAt, type Frame } from './frame.js';
import { pairRemarks } from './pair-remarks.js';
import type { MatchPlan, TrackMatch } from './places.js';
import { stepsOf } from './steps.js';

/** The plan that is always there: B starts as A ends, without an overlap. */
export function cutPlan(
  a: TrackCount,
  b: TrackCount,
  shared: Omit<TrackMatch, 'plans' | 'obstacles'>,
  keyLock: boolean,
): MatchPlan {
  const first = b.bars[0];
  const frame: Frame = {
    a,
    b,
    ratio: shared.tempo.ratio,
    leaving: { beat: a.end, bar: null, name: 'end', weight: 0.5 },
    arriving: { beat: first.firstBeat, bar: first, name: 'start', weight: 0.5 },
    from: a.end,
    to: a.end,
  };
  const [placeA, placeB] = [placeAt(a, a.end), placeAt(b, first.firstBeat)];
  const countIn = a.bars.at(-4);
  const confidence = planConfidence(frame);
  const { reasons, cautions } = pairRemarks(shared, keyLock);
  return {
    kind: 'cut',
    score: 0.1,
    start: { a: placeA, b: placeB, countInFrom: countIn ? placeAt(a, countIn.firstBeat) : null },
    meet: { a: placeA, b: placeB, functionA: 'end', functionB: 'start' },
    end: { a: placeA, b: placeB },
    overlap: { bars: 0, before: 0, after: 0 },
    steps: stepsOf(frame, 60 / shared.tempo.bpm),
    alignment: [],
    // tempos and keys do not meet where nothing overlaps
    reasons: [],
    cautions: [...reasons, ...cautions].filter((r) => r.kind === 'louder' || r.kind === 'key'),
    confidence,
  };
}
