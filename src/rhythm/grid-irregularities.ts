import { sigmoid } from '../learned/index.js';
import type { Bpm, Seconds } from '../units/index.js';
import type { BarJump } from './bar-jumps.js';
import type { BeatFeatures } from './beat-features.js';
import { beatlessRuns } from './beatless.js';
import type { GridBar, GridIrregularity } from './grid.js';
import { halfTimeRuns } from './half-time.js';
import type { LaidBeats } from './lay-beats.js';

/** A beatless opening is told from this many bars on; a beatless middle only when longer than any usual breakdown. */
const OPENING_BARS = 8;
const MIDDLE_BARS = 32;
/** Tempo must change by this share to be told. */
const TEMPO_CHANGE = 0.003;
/** Scatters of the heard beats at which a change of tempo or a drift is half sure, and the least scatter taken for one. */
const SURE = 3;
const LEAST_SPREAD: Seconds = 0.002;

/** What the irregularities are read from. */
export interface GridState {
  readonly beats: readonly Seconds[];
  readonly bars: readonly GridBar[];
  readonly beatsPerBar: number;
  readonly laid: LaidBeats;
  /** Index in `beats` of the laid beat 0. */
  readonly shift: number;
  readonly features: BeatFeatures;
  readonly jumps: readonly BarJump[];
  readonly bpm: Bpm;
}

/** Everything in which the grid leaves its own pattern, by time. */
export function gridIrregularities(state: GridState): GridIrregularity[] {
  return [...oddBars(state), ...tempoChanges(state), ...drift(state), ...feel(state), ...beatless(state)].sort(
    (a, b) => a.time - b.time,
  );
}

function oddBars({ bars, beatsPerBar, jumps }: GridState): GridIrregularity[] {
  const whole = bars.filter((b) => b.number >= 1).slice(0, -1);
  return whole
    .filter((bar) => bar.beats !== beatsPerBar)
    .map((bar) => {
      const jump = jumps.find((j) => j.beat === bar.firstBeat + bar.beats) ?? jumps.find((j) => j.beat > bar.firstBeat);
      const gain = jump?.gain ?? 0;
      return {
        kind: bar.beats < beatsPerBar ? ('dropped-beats' as const) : ('added-beats' as const),
        bar: bar.number,
        time: bar.start,
        beats: Math.abs(bar.beats - beatsPerBar),
        confidence: sigmoid(gain),
        evidence: { gainNats: gain, barBeats: bar.beats },
      };
    });
}

function tempoChanges({ laid, bars, shift }: GridState): GridIrregularity[] {
  if (laid.steadiness !== 'steps') return [];
  return laid.pieces.slice(1).flatMap((piece, i) => {
    const before = laid.pieces[i];
    if (Math.abs(piece.bpm / before.bpm - 1) < TEMPO_CHANGE) return [];
    const bar = bars.find((b) => b.firstBeat >= piece.from + shift - 2) ?? bars[bars.length - 1];
    return [
      {
        kind: 'tempo-change' as const,
        bar: bar.number,
        time: bar.start,
        fromBpm: before.bpm,
        toBpm: piece.bpm,
        ...stepEvidence(laid, before, piece),
      },
    ];
  });
}

/**
 * A change of tempo is as sure as the beats of the shorter side would lie off, had it not been, in scatters of the
 * heard beats: half sure at SURE of them.
 */
function stepEvidence(laid: LaidBeats, before: LaidBeats['pieces'][number], after: LaidBeats['pieces'][number]) {
  const beats = Math.min(before.to - before.from, after.to - after.from);
  const off = Math.abs(60 / after.bpm - 60 / before.bpm) * beats;
  const scatters = off / Math.max(laid.spread, LEAST_SPREAD);
  return {
    confidence: scatters / (scatters + SURE),
    evidence: {
      beatsBefore: before.to - before.from,
      beatsAfter: after.to - after.from,
      offMilliseconds: 1000 * off,
      spreadMilliseconds: 1000 * laid.spread,
    },
  };
}

function drift({ laid, beats, bars }: GridState): GridIrregularity[] {
  if (laid.steadiness !== 'drifting') return [];
  const span = 16;
  const tempos: number[] = [];
  for (let b = 0; b + span < beats.length; b += 4) tempos.push((60 * span) / (beats[b + span] - beats[b]));
  if (tempos.length === 0) return [];
  const first = bars.find((b) => b.number === 1) ?? bars[0];
  const [lowest, highest] = [Math.min(...tempos), Math.max(...tempos)];
  // How far the beats wander within a window, in scatters of the heard ones.
  const wander = ((highest - lowest) / (highest + lowest)) * ((60 * span) / laid.pieces[0].bpm);
  const scatters = wander / Math.max(laid.spread, LEAST_SPREAD);
  return [
    {
      kind: 'drift',
      bar: first.number,
      time: first.start,
      lowestBpm: lowest,
      highestBpm: highest,
      confidence: scatters / (scatters + SURE),
      evidence: { spreadMilliseconds: laid.spread * 1000, wanderMilliseconds: 1000 * wander, windowBeats: span },
    },
  ];
}

function feel({ features, bars, beatsPerBar, bpm }: GridState): GridIrregularity[] {
  if (beatsPerBar !== 4) return [];
  return halfTimeRuns(features, bars, bpm).map((run) => ({
    kind: 'half-time' as const,
    bar: Math.max(run.from, 1),
    time: bars.find((b) => b.number === Math.max(run.from, 1))!.start,
    endBar: run.to,
    countedBpm: bpm,
    feltBpm: bpm / 2,
    confidence: Math.min(0.95, 0.5 + run.mean / 10),
    evidence: { thirdBeatOverSecondAndFourth: run.mean, bars: run.to - run.from + 1 },
  }));
}

function beatless({ features, bars }: GridState): GridIrregularity[] {
  return beatlessRuns(features, bars, OPENING_BARS)
    .filter((run) => run.from <= 1 || run.to - run.from + 1 >= MIDDLE_BARS)
    .filter((run) => run.to < bars[bars.length - 1].number)
    .map((run) => ({
      kind: 'beatless-passage' as const,
      bar: Math.max(run.from, 1),
      time: bars.find((b) => b.number === Math.max(run.from, 1))!.start,
      endBar: run.to,
      confidence: Math.max(0.5, 1 - 3 * run.mean),
      evidence: { drumShare: run.mean, bars: run.to - Math.max(run.from, 1) + 1 },
    }));
}
