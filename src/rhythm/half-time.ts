import type { Bpm } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { GridBar } from './grid.js';
import { quantile, runs, type BarRun } from './strokes.js';

/** Strokes weaker than this are no evidence. */
const STROKE = 0.5;

/** How a half-time feel shows itself. */
interface Rule {
  /** Log ratio of the snare's band on the third beat to that on the second and fourth. */
  readonly ratio: number;
  readonly bars: number;
  readonly from: Bpm;
  /** A fill or two do not end the feel: the median of so many bars decides. */
  readonly heard: number;
}

/**
 * A passage that leaves the track's own pattern: planted ones of seven synthetic tracks read 0.9 to 2.5 bar by bar, whatever
 * the kick does, the bars around them below 0.6.
 */
const PASSAGE: Rule = { ratio: 0.9, bars: 6, from: 80, heard: 3 };
/** Its snare and its kick on the one are at least this share of the track's strong strokes: a beatless passage is none. */
const STRONG = 0.12;
/** Over all its bars the strokes are this many times as strong; songs made to no such plan reach 3.3, planted passages 3.5 to 9. */
const CLEAR = 3.4;
/** It fills less than this share of the track. */
const MOST = 0.5;

/**
 * A feel that may be the track's own: weaker, but for longer, and only where the kick has its stroke on the first beat and the
 * tempo can be felt at half.
 */
const FEEL: Rule = { ratio: 0.4, bars: 16, from: 130, heard: 9 };

interface BarStrokes {
  readonly ratio: number;
  readonly kicked: boolean;
  /** Kick on the first beat, snare on the third. */
  readonly first: number;
  readonly third: number;
}

/** Runs of bars whose snare falls on the third beat, as if the tempo were half; `mean` is the ratio of the strokes. */
export function halfTimeRuns(f: BeatFeatures, bars: readonly GridBar[], bpm: Bpm): BarRun[] {
  const strokes = bars.map((bar) => barStrokes(f, bar));
  const strongest = ([a, b]: readonly Float64Array[]) => STRONG * quantile(Array.from(a, (v, i) => v + b[i]), 0.85); // prettier-ignore
  const kick = strongest(f.onBeat.slice(0, 2));
  const snare = strongest(f.onBeat.slice(3, 5));
  const find = (rule: Rule, is: (s: BarStrokes) => boolean) => {
    if (bpm < rule.from) return [];
    const half = (rule.heard - 1) / 2;
    const holds = (i: number) => {
      const around = strokes.slice(Math.max(0, i - half), i + half + 1);
      return (
        quantile(
          around.map((s) => s.ratio),
          0.5,
        ) >= rule.ratio && 2 * around.filter(is).length > around.length
      );
    };
    return runs(bars, holds, (i) => Math.exp(strokes[i].ratio), rule.bars);
  };
  const passages = find(PASSAGE, (s) => s.third >= snare && s.first >= kick).filter((run) => run.mean >= CLEAR);
  const filled = passages.reduce((sum, r) => sum + r.to - r.from + 1, 0);
  if (filled > 0 && filled < MOST * bars.length) return passages;
  return find(FEEL, (s) => s.kicked);
}

function barStrokes(f: BeatFeatures, { firstBeat: b, beats }: GridBar): BarStrokes {
  if (beats !== 4) return { ratio: 0, kicked: false, first: 0, third: 0 };
  const snare = (k: number) => (f.onBeat[3][b + k] ?? 0) + (f.onBeat[4][b + k] ?? 0);
  const kick = (k: number) => (f.onBeat[0][b + k] ?? 0) + (f.onBeat[1][b + k] ?? 0);
  return {
    ratio: Math.log((snare(2) + STROKE) / ((snare(1) + snare(3)) / 2 + STROKE)),
    kicked: kick(0) > STROKE && kick(0) > 1.5 * Math.max(kick(1), kick(3)),
    first: kick(0),
    third: snare(2),
  };
}
