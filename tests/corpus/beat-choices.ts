import { logitScore, type LogitWeights } from '../../src/learned/index.js';
import type { Example } from './train-examples.js';

/** A candidate has the right tempo within this share. */
const SAME_TEMPO = 0.04;

/** The weights that a reading of the beat is judged by. */
export type Scorer = Pick<LogitWeights, 'mean' | 'scale' | 'weights'>;

/** The choice of the phase: an example's readings at the right tempo; null where none of them is right. */
export function phaseChoice(example: Example): Example | null {
  const kept = picked(example, (i) => rightTempo(example.ratios[i]));
  return kept.right.includes(true) ? kept : null;
}

/** The choice of the level: of each tempo the reading whose phase is likeliest. */
export function levelChoice(example: Example, phase: Scorer): Example {
  const scores = example.cues.map((cues) => logitScore(modelOf(phase), cues));
  const best = new Set(
    tempos(example).map((members) => members.reduce((a, b) => (scores[b] > scores[a] ? b : a), members[0])),
  );
  const kept = picked(example, (i) => best.has(i));
  return { ...kept, right: kept.ratios.map(rightTempo) };
}

/** Logarithms of the share each reading gets: that of its tempo times that of its phase. */
export function readingScores(example: Example, phase: LogitWeights, level: LogitWeights): number[] {
  const phases = example.cues.map((cues) => logitScore(phase, cues));
  const groups = tempos(example);
  const levels = groups.map((members) =>
    logitScore(level, example.cues[members.reduce((a, b) => (phases[b] > phases[a] ? b : a), members[0])]),
  );
  const out = new Array<number>(example.cues.length);
  const shares = logShares(levels);
  groups.forEach((members, g) => {
    const within = logShares(members.map((i) => phases[i]));
    members.forEach((i, k) => (out[i] = shares[g] + within[k]));
  });
  return out;
}

/** Weights as a model, without what only a shipped one needs. */
export function modelOf(fit: Scorer, temperature = 1): LogitWeights {
  return { ...fit, id: 'fold', frontEndId: '', cues: [], temperature, origin: '' };
}

function logShares(scores: readonly number[]): number[] {
  const top = Math.max(...scores);
  const total = top + Math.log(scores.reduce((sum, s) => sum + Math.exp(s - top), 0));
  return scores.map((s) => s - total);
}

function rightTempo(ratio: number): boolean {
  return Math.abs(ratio - 1) < SAME_TEMPO;
}

/** Readings at one tempo follow each other. */
function tempos({ ratios }: Example): number[][] {
  const groups: number[][] = [];
  ratios.forEach((ratio, i) => {
    if (i > 0 && ratio === ratios[i - 1]) groups[groups.length - 1].push(i);
    else groups.push([i]);
  });
  return groups;
}

function picked(example: Example, keep: (i: number) => boolean): Example {
  const only = <T>(values: readonly T[]) => values.filter((_, i) => keep(i));
  return {
    ...example,
    cues: only(example.cues),
    right: only(example.right),
    scores: only(example.scores),
    ratios: only(example.ratios),
  };
}
