import { BarwiseError, type Fraction } from '../units/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { MatchRemark } from '../wording/index.js';
import { candidates, type SearchLimits } from './candidates.js';
import { findClashes } from './clashes.js';
import { planConfidence, tellConfidence } from './confidence.js';
import { countOf, type TrackCount } from './count.js';
import { cutPlan } from './cut.js';
import { alignmentOf, type Frame } from './frame.js';
import { irregularitiesIn } from './irregular.js';
import { keyFit, meetKeys } from './keys.js';
import { loudnessMeeting } from './loudness.js';
import type { MatchPlan, TrackMatch } from './places.js';
import { makePlan } from './plan.js';
import { fullScore, quickScore } from './score.js';
import { matchTempos, semitonesOf, type TempoChange } from './tempo.js';

/** What is asked of the plans for two records. @public */
export interface MatchOptions {
  /** Which record changes its tempo; default `b`. */
  readonly change?: TempoChange;
  /** Range of the tempo fader, as a share: 0.08 (the default) is ±8 %. */
  readonly range?: Fraction;
  /** Longest overlap, in bars of A; default 64. */
  readonly longest?: number;
  /** B does not start before this bar of A; default 1. */
  readonly notBefore?: number;
  /** How many plans; default 5. */
  readonly plans?: number;
  /** Whether the players hold the key when the tempo is changed; default false. It decides which keys are judged. */
  readonly keyLock?: boolean;
}

/** How many of the quickly scored ways are looked at closely. */
const CLOSELY = 160;
/** So many plans at least are looked at before it is said that none is surely borne out. */
const LOOKED_AT = 5;
/** A plays on behind the change-over for at most so many bars. */
const AFTER = 32;
/** How much a key relation moves a score: keys are the same for every plan of a pair, but pairs are compared. */
const KEY_SHARE = 0.1;

/**
 * Where to start B on A's count so that beats, bars and phrases line up and the big moments meet: plans, best first,
 * each with its reasons as kinds and parameters (`sayMatch` makes sentences of them).
 * @public
 * @param a the record that plays
 * @param b the record that comes in
 * @throws BarwiseError `bad-option` for numbers that cannot be
 * @example matchTracks(a, b).plans[0].start.a.bar
 */
export function matchTracks(a: TrackAnalysis, b: TrackAnalysis, options: MatchOptions = {}): TrackMatch {
  const { longest = 64, notBefore = 1, plans: wanted = 5, keyLock = false } = options;
  if (!(longest >= 4))
    throw new BarwiseError('bad-option', `An overlap of ${longest} bars is too short: give 4 or more.`);
  const tempo = matchTempos(a.tempo.bpm, b.tempo.bpm, options);
  const [countA, countB] = [countOf(a), countOf(b)];
  const keys = keysOf(a, b, semitonesOf(tempo.rateB) - semitonesOf(tempo.rateA));
  const key = keys === null ? 0.5 : keyFit(keyLock ? keys.locked : keys.unlocked);
  const loudness = loudnessMeeting(a, b);
  const shared = { tempo, keys, loudness };
  const obstacles = obstaclesOf(a, b, tempo.fits, tempo.change, options);
  const cut = (): MatchPlan[] => {
    if (countA.end === 0 || countB.end === 0) return [];
    const plan = cutPlan(countA, countB, shared, keyLock);
    return tellConfidence([plan], [plan.confidence]);
  };
  if (obstacles.length > 0) return { ...shared, plans: cut(), obstacles };
  const limits = { longest, notBefore, after: Math.min(AFTER, longest) };
  const best = distinct(bestFrames(countA, countB, tempo.ratio, limits), Math.max(wanted, LOOKED_AT));
  const plans = best
    .slice(0, wanted)
    .map(({ frame, score }) => makePlan(frame, score * (1 - KEY_SHARE) + KEY_SHARE * key, shared, keyLock));
  const sure = best.map(({ frame }) => planConfidence(frame));
  if (plans.length > 0) return { ...shared, plans: tellConfidence(plans, sure), obstacles };
  return {
    ...shared,
    plans: cut(),
    obstacles: [{ kind: 'no-common-phrase' }],
  };
}

interface Scored {
  readonly frame: Frame;
  readonly score: Fraction;
}

/** Ways to lay B on A, the best first. */
function bestFrames(a: TrackCount, b: TrackCount, ratio: number, limits: SearchLimits): Scored[] {
  const quick = [...candidates(a, b, ratio, limits)].map((frame) => ({ frame, score: quickScore(frame) }));
  quick.sort((x, y) => y.score - x.score);
  return quick
    .slice(0, CLOSELY)
    .map(({ frame, score }) => {
      const alignment = alignmentOf(frame);
      const irregular = irregularitiesIn(frame, alignment).filter(
        (r) => r.kind === 'irregular-in-overlap' && r.effect !== 'none',
      );
      return { frame, score: fullScore(frame, score, findClashes(frame), alignment, irregular.length) };
    })
    .sort((x, y) => y.score - x.score);
}

/** Plans that differ in where B starts or takes over; of those that differ only in A's way out, the best. */
function distinct(scored: readonly Scored[], wanted: number): Scored[] {
  const seen = new Set<string>();
  const out: Scored[] = [];
  for (const one of scored) {
    const { from, leaving, arriving } = one.frame;
    const name = `${from}/${leaving.beat}/${arriving.beat}`;
    if (seen.has(name)) continue;
    seen.add(name);
    out.push(one);
    if (out.length >= wanted) break;
  }
  return out;
}

function keysOf(a: TrackAnalysis, b: TrackAnalysis, shift: number): TrackMatch['keys'] {
  const { tonic, mode } = a.key;
  if (tonic === null || mode === null || b.key.tonic === null || b.key.mode === null) return null;
  const [from, to] = [
    { tonic, mode },
    { tonic: b.key.tonic, mode: b.key.mode },
  ];
  return { locked: meetKeys(from, to), unlocked: meetKeys(from, to, shift) };
}

function obstaclesOf(
  a: TrackAnalysis,
  b: TrackAnalysis,
  fits: boolean,
  change: Fraction,
  { range = 0.08 }: MatchOptions,
): MatchRemark[] {
  const metres = [a.metre.beatsPerBar, b.metre.beatsPerBar] as const;
  return [
    ...(fits ? [] : [{ kind: 'tempo-out-of-range' as const, percent: change * 100, range: range * 100 }]),
    ...(metres[0] === metres[1] ? [] : [{ kind: 'metres-differ' as const, a: metres[0], b: metres[1] }]),
  ];
}
