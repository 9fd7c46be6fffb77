import { decode, type Reading } from '../../../src/form/decode.js';
import type { PhraseFunctions } from '../../../src/form/functions.js';
import { planCues } from '../../../src/form/plan.js';
import { sectionScores } from '../../../src/form/section-scores.js';
import { LENGTH_COSTS } from '../../../src/form/weights/index.js';
import { fitLogistic, type Example, type Logistic } from '../../../src/learned/index.js';
import type { FirstReading } from './readings.js';
import { tellsOfSections, type LearningTrack } from './tracks.js';

/** L2 penalty, by the held-out folds. */
const PENALTY = 1;
/** What a track of each kind counts: there are many arranged ones, which are their author's. */
const SHARES: Readonly<Record<LearningTrack['kind'], number>> = {
  song: 2,
  arranged: 0.3,
  styled: 0.25,
  varied: 0,
  planned: 0.25,
};

/** The sections of a first reading that knows what its phrases do, followed as far as `plan` says. */
export function followed({ scores, first }: FirstReading, does: PhraseFunctions, plan: number): Reading {
  const informed = sectionScores(scores, first.phraseStarts, does, plan);
  return decode(scores.section.length, informed, LENGTH_COSTS, first.usual);
}

/** F-measure of starts at the exact bar, the first bar left out. */
export function fOf(found: readonly number[], right: readonly number[]): number {
  const hits = found.filter((b) => right.includes(b)).length;
  return found.length + right.length > 0 ? (2 * hits) / (found.length + right.length) : 1;
}

/** Whether the sections of a track come out better by following what its phrases do; null where it is the same. */
export function planExample(track: LearningTrack, read: FirstReading, does: PhraseFunctions): Example | null {
  if (!tellsOfSections(track)) return null;
  const [without, by] = [0, 1].map((plan) => fOf(followed(read, does, plan).sectionStarts.slice(1), track.sections));
  if (by === without) return null;
  const cues = planCues(read.scores.section, read.first.phraseStarts, does);
  return { cues, right: by > without, weight: Math.abs(by - without) * SHARES[track.kind] };
}

/** Fits "sections follow what the phrases do". */
export function fitPlan(examples: readonly (Example | null)[]): Logistic {
  return fitLogistic(
    examples.filter((e) => e !== null),
    PENALTY,
  );
}
