import { nearestTime, type Scores, type Truth } from '../../src/evaluation/index.js';
import type { Judgement } from './job.js';

/** How sure the grid is of its choices. */
export interface Confidences {
  readonly tempo: number | null;
  readonly beatPhase: number | null;
  readonly downbeat: number | null;
}

/** How sure the form is of its starts. */
export interface SaidSpans {
  readonly phrases: readonly SaidSpan[];
  readonly sections: readonly SaidSpan[];
}

interface SaidSpan {
  readonly start: number;
  readonly confidence: number | null;
}

/** F above which a phase counts as right: between it and the wrong phase lies nothing but broken grids. */
const RIGHT = 0.8;

/** Phases are only judged where what they rest on is right. */
export function judgements(c: Confidences, scores: Scores, truth: Truth): Judgement[] {
  const all: Judgement[] = [];
  if (c.tempo !== null) all.push({ of: 'tempo', confidence: c.tempo, right: scores.tempo1 === 1 });
  if (c.beatPhase !== null && scores.tempo1 === 1)
    all.push({ of: 'beat phase', confidence: c.beatPhase, right: (scores.beatF ?? 0) > RIGHT });
  if (c.downbeat !== null && (scores.beatF ?? 0) > RIGHT && truth.downbeats.length > 0) {
    all.push({ of: 'downbeat', confidence: c.downbeat, right: (scores.downbeatF ?? 0) > RIGHT });
  }
  return all;
}

/**
 * Each phrase start is right when a group starts there, each section start when a section does (within half a beat). The
 * first of both is left out: it is where the track starts. Judged only where the ones are right.
 */
export function formJudgements(said: SaidSpans | null, scores: Scores, truth: Truth): Judgement[] {
  if (said === null || truth.sections.length < 2 || truth.bpm === null) return [];
  if ((scores.downbeatF ?? 0) <= RIGHT) return [];
  const half = 30 / truth.bpm;
  const judge = (of: Judgement['of'], spans: readonly SaidSpan[], right: readonly number[]): Judgement[] =>
    spans
      .slice(1)
      .filter((s) => s.confidence !== null && !truth.groupsUnknown.some((u) => s.start > u.start && s.start < u.end))
      .map((s) => ({
        of,
        confidence: s.confidence!,
        right: Math.abs(nearestTime(right, s.start) - s.start) <= half,
      }));
  const sections = truth.sections.map((s) => s.start);
  return [...judge('phrase', said.phrases, truth.groupStarts), ...judge('section', said.sections, sections)];
}
