import { writeFileSync } from 'node:fs';
import type { Calibration } from '../../../src/learned/index.js';
import { answersOf, crossCalibrated, fitAnswers, QUESTIONS, type HeldAnswer, type Question } from './confidence.js';
import type { Pair } from './figures.js';

const NAMES: Readonly<Record<Question, string>> = {
  tempo: 'tempo',
  'beat phase': 'beatPhase',
  downbeat: 'downbeat',
  phrase: 'phrase',
  section: 'section',
};
const NONE: Calibration = { slope: 1, offset: 0 };

/**
 * A line for each kind of answer, fitted on held-out songs; none where a line fitted on the other makers does not lower
 * the log loss.
 */
export function fitCalibrations(pairs: readonly Pair[]): Record<string, Calibration> {
  const all = answersOf(pairs);
  const entries = QUESTIONS.map((of) => {
    const answers = all.filter((a) => a.of === of);
    const gains = answers.length > 0 && logLoss(crossCalibrated(answers)) < logLoss(answers);
    return [NAMES[of], gains ? short(fitAnswers(answers)) : NONE] as const;
  });
  return Object.fromEntries(entries);
}

/** Writes them where the stages take them from. */
export function writeCalibrations(lines: Readonly<Record<string, Calibration>>): void {
  const keys = Object.keys(lines).map((k) => `'${k}'`).join(' | '); // prettier-ignore
  const source = [
    "import type { Calibration } from '../calibration.js';",
    '',
    '/** Lines from a confidence as the stages have it to one that is right as often as it says. Written by tests/corpus/held-out.ts. */',
    '// prettier-ignore',
    `export const CALIBRATIONS: Readonly<Record<${keys}, Calibration>> = ${JSON.stringify(lines)};`,
    '',
  ];
  writeFileSync(new URL('../../../src/learned/weights/calibration.ts', import.meta.url), source.join('\n'));
}

function logLoss(answers: readonly HeldAnswer[]): number {
  const p = (a: HeldAnswer) => Math.max(1e-3, a.right ? a.confidence : 1 - a.confidence);
  return -answers.reduce((sum, a) => sum + Math.log(p(a)), 0) / answers.length;
}

function short({ slope, offset }: Calibration): Calibration {
  return { slope: Number(slope.toPrecision(3)), offset: Number(offset.toPrecision(3)) };
}
