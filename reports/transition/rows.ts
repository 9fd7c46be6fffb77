import { LAYERS, type Layer, type MatchPlan, type TrackAnalysis, type TrackMatch } from '../../src/index.js';

/** Two records, both on one count, and the plan to print. @experimental */
export interface Transition {
  readonly a: TrackAnalysis;
  readonly b: TrackAnalysis;
  readonly match: TrackMatch;
  readonly plan: MatchPlan;
}

/** A bar of a record in a cell of the shared count. */
export interface SharedBar {
  readonly number: number;
  readonly groupBar: number;
  readonly phraseStarts: boolean;
  readonly time: number;
  readonly layers: Readonly<Record<Layer, number | null>>;
  /** In beats of A, against the start of its cell: not 0 where the ones of the records part. */
  readonly offset: number;
}

/** One bar of A's count. */
export interface SharedCell {
  /** Bars since B's start; negative before. */
  readonly place: number;
  readonly a: SharedBar | null;
  readonly b: SharedBar | null;
  /** What is to be done on its one. */
  readonly actions: MatchPlan['steps'][number]['actions'];
  /** Whether A still plays in it. */
  readonly aPlays: boolean;
}

export const BARS_IN_ROW = 16;
/** Bars of A before B starts, and of B after A is out. */
const AROUND = 8;

/** The shared count, cut into rows of sixteen bars so that B's start stands at the beginning of a row. */
export function sharedRows({ a, b, match, plan }: Transition): SharedCell[][] {
  const perBar = a.metre.beatsPerBar;
  const { start, meet, end } = plan;
  const bars = Math.round((end.a.beat - start.a.beat) / perBar);
  const actions = new Map(plan.steps.map((s) => [Math.floor(s.beat / perBar), s.actions]));
  const cells: SharedCell[] = [];
  for (let place = -AROUND; place < bars + AROUND; place++) {
    const beatA = start.a.beat + place * perBar;
    const beatB = meet.b.beat + (beatA - meet.a.beat) * match.tempo.ratio;
    cells.push({
      place,
      a: beatA < end.a.beat ? barAt(a, beatA, 1) : null,
      b: place >= 0 ? barAt(b, beatB, match.tempo.ratio) : null,
      actions: actions.get(place) ?? [],
      aPlays: beatA < end.a.beat,
    });
  }
  const before = cells.slice(0, AROUND);
  const rest = cells.slice(AROUND);
  const rows = [before];
  for (let i = 0; i < rest.length; i += BARS_IN_ROW) rows.push(rest.slice(i, i + BARS_IN_ROW));
  return rows.map((row) => row.filter((cell) => cell.a !== null || cell.b !== null)).filter((row) => row.length > 0);
}

function barAt(track: TrackAnalysis, beat: number, ratio: number): SharedBar | null {
  const time = timeOf(track, beat);
  if (time === null) return null;
  const index = track.bars.findLastIndex((bar) => bar.start <= time + 0.03);
  const bar = track.bars[index];
  if (bar === undefined || time > (track.beats.at(-1) ?? 0) + 0.03) return null;
  const firstBeat = track.beats.findIndex((t) => t > bar.start - 0.02);
  const layers = Object.fromEntries(LAYERS.map((layer) => [layer, track.layers[layer][index] ?? null]));
  return {
    number: bar.number,
    groupBar: bar.groupBar,
    phraseStarts: bar.phraseBar === 1,
    time: bar.start,
    layers: layers as SharedBar['layers'],
    offset: (firstBeat - beat) / ratio,
  };
}

function timeOf({ beats }: TrackAnalysis, beat: number): number | null {
  const whole = Math.floor(beat);
  return whole >= 0 && whole < beats.length ? beats[whole] : null;
}
