import { answeredFrom, brierScore, reliability, riskCoverageArea } from '../../../src/evaluation/index.js';
import { calibrated, fitCalibration, type Calibration } from '../../../src/learned/index.js';
import type { Judgement } from '../job.js';
import { markdown } from '../tables.js';
import { makerOf } from '../song-front-ends.js';
import type { Pair } from './figures.js';
import { inGroup, type Group } from './tables.js';

/** Under this the product says "not sure". */
const NOT_SURE = 0.6;
const EDGES = [0, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1];
/** A track has one tempo, phase and downbeat, but many phrases and sections. */
export const QUESTIONS = ['tempo', 'beat phase', 'downbeat', 'phrase', 'section'] as const satisfies readonly Judgement['of'][]; // prettier-ignore
export type Question = (typeof QUESTIONS)[number];

/** An answer, and of which music and whose song. */
export interface HeldAnswer extends Judgement {
  readonly id: string;
  readonly maker: string;
  readonly group: Group;
}

/** Every answer about the songs, whole and cut. */
export function answersOf(pairs: readonly Pair[]): HeldAnswer[] {
  return pairs.flatMap(({ whole, cut }) =>
    [whole, cut].flatMap((o) =>
      o.judgements.map((j) => ({
        ...j,
        id: o.id,
        maker: makerOf(o.id).maker,
        group: o.group === 'dance' ? ('dance' as const) : ('other' as const),
      })),
    ),
  );
}

/** Answers with confidences that went through a line fitted on the other makers' answers. */
export function crossCalibrated(answers: readonly HeldAnswer[]): HeldAnswer[] {
  return [...new Set(answers.map((a) => a.maker))].flatMap((maker) => {
    const line = fitAnswers(answers.filter((a) => a.maker !== maker));
    return answers.filter((a) => a.maker === maker).map((a) => ({ ...a, confidence: calibrated(a.confidence, line) }));
  });
}

/** A calibration in which every maker counts as the square root of the number of answers about its songs. */
export function fitAnswers(answers: readonly HeldAnswer[]): Calibration {
  const count = new Map<string, number>();
  for (const { maker } of answers) count.set(maker, (count.get(maker) ?? 0) + 1);
  return fitCalibration(answers.map((a) => ({ ...a, weight: 1 / Math.sqrt(count.get(a.maker)!) })));
}

/**
 * Brier score beside that of a constant (the share that is right), area under the risk–coverage curve beside the share
 * that is wrong, and what is left out under "not sure".
 */
export function confidenceSummary(pairs: readonly Pair[]): string {
  const all = answersOf(pairs);
  const rows = QUESTIONS.flatMap((of) => {
    const asked = all.filter((a) => a.of === of);
    const lines = crossCalibrated(asked);
    return (['dance', 'other'] as const).flatMap((group) => {
      const answers = asked.filter((a) => a.group === group);
      if (answers.length === 0) return [];
      const mean = (value: (a: HeldAnswer) => number) => answers.reduce((s, a) => s + value(a), 0) / answers.length;
      const wrong = mean((a) => Number(!a.right));
      const { coverage, risk } = answeredFrom(answers, NOT_SURE);
      return [
        [
          of,
          group,
          `${answers.length}`,
          (1 - wrong).toFixed(3),
          mean((a) => a.confidence).toFixed(3),
          brierScore(answers).toFixed(3),
          (wrong * (1 - wrong)).toFixed(3),
          brierScore(lines.filter((a) => a.group === group)).toFixed(3),
          riskCoverageArea(answers).toFixed(3),
          wrong.toFixed(3),
          (1 - coverage).toFixed(3),
          risk === null ? '–' : risk.toFixed(3),
        ],
      ];
    });
  });
  const head = ['answer', 'music', 'given', 'right', 'mean confidence', 'Brier', 'Brier of a constant', 'Brier after a fitted line', 'risk–coverage area', 'wrong of all', `under ${NOT_SURE}`, 'wrong of the rest']; // prettier-ignore
  return markdown(head, rows);
}

/** How often answers given with a confidence were right. */
export function reliabilityTable(pairs: readonly Pair[]): string {
  const all = answersOf(pairs);
  const rows = QUESTIONS.flatMap((of) =>
    reliability(
      all.filter((a) => a.of === of),
      EDGES,
    ).map((r) => [of, `${r.from}–${r.to}`, `${r.count}`, r.meanConfidence.toFixed(2), r.shareRight.toFixed(2)]),
  );
  return markdown(['answer', 'confidence', 'given', 'mean confidence', 'share right'], rows);
}

/** Shares of songs about which tempo, phase or downbeat is "not sure", whole or cut: as it is, and after fitted lines. */
export function abstention(pairs: readonly Pair[], group: Group): { asIs: number; fitted: number } {
  const grid: readonly Judgement['of'][] = ['tempo', 'beat phase', 'downbeat'];
  const share = (answers: readonly HeldAnswer[]) => {
    const unsure = answers.filter((a) => a.group === group && grid.includes(a.of) && a.confidence < NOT_SURE);
    return new Set(unsure.map((a) => a.id)).size / Math.max(1, inGroup(pairs, group).length);
  };
  const all = answersOf(pairs);
  return { asIs: share(all), fitted: share(grid.flatMap((of) => crossCalibrated(all.filter((a) => a.of === of)))) };
}
