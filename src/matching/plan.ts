import type { Fraction } from '../units/index.js';
import type { MatchRemark } from '../wording/index.js';
import { findClashes } from './clashes.js';
import { planConfidence } from './confidence.js';
import { barAt, barStartingAt } from './count.js';
import { alignmentOf, beatOfB, overlapBars, phraseAgreement, placeAt, type Frame } from './frame.js';
import { irregularitiesIn, largestDrift } from './irregular.js';
import { pairRemarks } from './pair-remarks.js';
import type { MatchPlan, TrackMatch } from './places.js';
import { stepsOf } from './steps.js';

/** Bars that are counted in before B starts. */
const COUNT_IN = 4;
/** Beats that stray less than this are heard as one. Friberg & Sundberg, JASA 1995: 11.7 ms at 128 BPM. */
const HEARD_APART = 0.012;
/** B is wanted to start within this share of its bars; A to have played this share of them. */
const EARLY: Fraction = 0.4;

/** The plan that a frame stands for, with its reasons. */
export function makePlan(
  frame: Frame,
  score: Fraction,
  shared: Omit<TrackMatch, 'plans' | 'obstacles'>,
  keyLock: boolean,
): MatchPlan {
  const { a, b, from, to, leaving, arriving } = frame;
  const alignment = alignmentOf(frame);
  const confidence = planConfidence(frame);
  const bars = overlapBars(frame);
  const before = bars.filter((bar) => bar.firstBeat < leaving.beat).length;
  const beatB = beatOfB(frame, from);
  const first = barStartingAt(a, from);
  const countIn = first === null ? null : (a.bars[a.bars.indexOf(first) - COUNT_IN] ?? null);
  const start = {
    a: placeAt(a, from),
    b: placeAt(b, beatB),
    countInFrom: countIn === null ? null : placeAt(a, countIn.firstBeat),
  };
  const meet = {
    a: placeAt(a, leaving.beat),
    b: placeAt(b, arriving.beat),
    functionA: leaving.name,
    functionB: arriving.name,
  };
  const pair = pairRemarks(shared, keyLock);
  return {
    kind: 'blend',
    score,
    start,
    meet,
    end: { a: placeAt(a, to), b: placeAt(b, beatOfB(frame, to)) },
    overlap: { bars: bars.length, before, after: bars.length - before },
    steps: stepsOf(frame, 60 / shared.tempo.bpm),
    alignment,
    reasons: [...reasonsFor(frame, start, meet), ...pair.reasons],
    cautions: [...cautionsFor(frame, alignment, start), ...pair.cautions],
    confidence,
  };
}

function reasonsFor(frame: Frame, start: MatchPlan['start'], meet: MatchPlan['meet']): MatchRemark[] {
  const { a, from } = frame;
  const one = barStartingAt(a, from);
  const onPhrase = one === null || one.startsPhrase !== null;
  const bars = { barA: start.a.bar, barB: start.b.bar };
  const { agree, of } = phraseAgreement(frame);
  const clashes = findClashes(frame);
  const irregular = irregularitiesIn(frame, alignmentOf(frame));
  return [
    onPhrase
      ? { kind: 'phrase-on-phrase', ...bars }
      : { kind: 'group-on-phrase', ...bars, phraseBar: start.a.phraseBar },
    { kind: 'moments-meet', functionA: meet.functionA, functionB: meet.functionB, barA: meet.a.bar, barB: meet.b.bar },
    ...(of > 0 ? [{ kind: 'phrases-agree' as const, agree, of }] : []),
    ...(clashes.bass === 0 && clashes.perhaps.bass === 0
      ? [{ kind: 'bass-free' as const, bars: overlapBars(frame).length }]
      : []),
    ...(irregular.length === 0 ? [{ kind: 'no-irregularity' as const }, ...avoided(frame)] : []),
  ];
}

/** Irregularities just outside the overlap, which it stays clear of. */
function avoided(frame: Frame): MatchRemark[] {
  const near = frame.a.analysis.irregularities.filter(({ bar }) => {
    const end = barAt(frame.a, Math.min(frame.to, frame.a.end - 1))?.number ?? 0;
    const start = barAt(frame.a, frame.from)?.number ?? 0;
    return (bar < start && bar >= start - 16) || (bar >= end && bar <= end + 16);
  });
  return near.slice(0, 1).map(({ bar }) => ({ kind: 'avoids-irregularity', deck: 'a', bar }));
}

function cautionsFor(frame: Frame, alignment: MatchPlan['alignment'], start: MatchPlan['start']): MatchRemark[] {
  const { a, b } = frame;
  const drift = largestDrift(frame);
  const sharePlayed = (start.a.bar - a.bars[0].number) / Math.max(1, a.bars.length);
  const shareOfB = (start.b.bar - b.bars[0].number) / Math.max(1, b.bars.length);
  return [
    ...findClashes(frame).remarks,
    ...alignment.filter((s) => s.beats !== 0).map((s): MatchRemark => ({ kind: 'ones-apart', ...s })),
    ...irregularitiesIn(frame, alignment),
    ...(drift.seconds > HEARD_APART
      ? [{ kind: 'drifts' as const, deck: drift.deck, milliseconds: drift.seconds * 1000 }]
      : []),
    ...(sharePlayed < EARLY ? [{ kind: 'early-in-a' as const, time: start.a.time }] : []),
    ...(shareOfB > EARLY ? [{ kind: 'late-in-b' as const, bar: start.b.bar }] : []),
  ];
}
