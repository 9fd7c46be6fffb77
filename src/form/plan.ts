import { logOdds, sigmoid, type Logistic } from '../learned/index.js';
import type { Fraction } from '../units/index.js';
import type { PhraseFunctions } from './functions.js';

/** Names of the cues in their order; weights are fitted on them. */
export const PLAN_CUES: readonly string[] = [
  'mean confidence of functions',
  'least confidence of functions',
  'how decided the changes are',
  'section score, median',
  'section score at changes above that elsewhere',
];

/** Nats that the answer is sharpened by: half of one and half of the other is worse than either. */
const SHARPNESS = 8;

/** What tells whether the sections of a track follow what its phrases do, or change of sound alone. */
export function planCues(
  section: Float64Array,
  starts: readonly number[],
  { confidence, change }: PhraseFunctions,
): number[] {
  const later = starts.map((_, i) => i).slice(1);
  const scoreAt = (i: number) => section[starts[i]];
  const sorted = later.map(scoreAt).sort((a, b) => a - b);
  const changes = later.filter((i) => change[i] > 0.5);
  const others = later.filter((i) => change[i] <= 0.5);
  return [
    mean(confidence),
    Math.min(...confidence),
    mean(later.map((i) => Math.abs(2 * change[i] - 1))),
    sorted[sorted.length >> 1] ?? 0,
    mean(changes.map(scoreAt)) - mean(others.map(scoreAt)),
  ];
}

/** How far the sections follow what the phrases do: 0 to 1, nearly always one or the other. */
export function followsPlan(cues: readonly number[], weights: Logistic): Fraction {
  return sigmoid(SHARPNESS * logOdds(weights, cues));
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((a, b) => a + b, 0) / values.length;
}
