import type { Fraction } from '../units/index.js';

/** An answer with the confidence it was given with, and whether it was right. @experimental */
export interface Judged {
  readonly confidence: Fraction;
  readonly right: boolean;
}

/**
 * Mean squared difference of confidence and outcome, 0 at best: Brier, "Verification of forecasts expressed in terms of
 * probability", Monthly Weather Review 1950 (in the form for two outcomes).
 *
 * @experimental
 * @throws RangeError for no answers
 */
export function brierScore(answers: readonly Judged[]): number {
  mustHave(answers);
  return answers.reduce((sum, a) => sum + (a.confidence - Number(a.right)) ** 2, 0) / answers.length;
}

/** A point of the risk–coverage curve: what is wrong among the answers that are given. @experimental */
export interface RiskAtCoverage {
  readonly coverage: Fraction;
  readonly risk: Fraction;
  /** The least confidence that is still answered. */
  readonly confidence: Fraction;
}

/**
 * Share of wrong answers among the surest ones, as more and more are given: El-Yaniv & Wiener, "On the foundations of
 * noise-free selective classification", JMLR 2010. Equally sure answers are given together.
 *
 * @experimental
 * @returns coverage ascending to 1
 */
export function riskCoverage(answers: readonly Judged[]): RiskAtCoverage[] {
  const sorted = answers.toSorted((a, b) => b.confidence - a.confidence);
  const points: RiskAtCoverage[] = [];
  let wrong = 0;
  sorted.forEach(({ confidence, right }, i) => {
    wrong += Number(!right);
    if (sorted[i + 1]?.confidence === confidence) return;
    points.push({ coverage: (i + 1) / sorted.length, risk: wrong / (i + 1), confidence });
  });
  return points;
}

/**
 * Area under the risk–coverage curve as steps, 0 at best; the same answers with confidences that tell nothing would have
 * their share of wrong ones.
 *
 * @experimental
 * @throws RangeError for no answers
 */
export function riskCoverageArea(answers: readonly Judged[]): number {
  mustHave(answers);
  let before = 0;
  return riskCoverage(answers).reduce((area, { coverage, risk }) => {
    const part = area + risk * (coverage - before);
    before = coverage;
    return part;
  }, 0);
}

/** Answers given at or over a confidence: how many, and how many of them are wrong. @experimental */
export function answeredFrom(
  answers: readonly Judged[],
  least: Fraction,
): { coverage: Fraction; risk: Fraction | null } {
  const given = answers.filter((a) => a.confidence >= least);
  const wrong = given.filter((a) => !a.right).length;
  return {
    coverage: answers.length === 0 ? 0 : given.length / answers.length,
    risk: given.length === 0 ? null : wrong / given.length,
  };
}

/** A row of a reliability table. @experimental */
export interface Reliability {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly count: number;
  readonly meanConfidence: Fraction;
  readonly shareRight: Fraction;
}

/**
 * Answers by their confidence: calibrated ones are right as often as they say. Empty rows are left out.
 * @experimental
 * @param edges ascending
 */
export function reliability(answers: readonly Judged[], edges: readonly Fraction[]): Reliability[] {
  return edges.slice(1).flatMap((to, i) => {
    const from = edges[i];
    const last = i === edges.length - 2;
    const bin = answers.filter((a) => a.confidence >= from && (last ? a.confidence <= to : a.confidence < to));
    if (bin.length === 0) return [];
    const mean = (of: (a: Judged) => number) => bin.reduce((sum, a) => sum + of(a), 0) / bin.length;
    return [
      {
        from,
        to,
        count: bin.length,
        meanConfidence: mean((a) => a.confidence),
        shareRight: mean((a) => Number(a.right)),
      },
    ];
  });
}

function mustHave(answers: readonly Judged[]): void {
  if (answers.length === 0) throw new RangeError('A score of confidences needs at least one answer.');
}
