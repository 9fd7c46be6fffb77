import { GROUPS, STEPS_PER_BEAT, type StepTable } from '../../form/index.js';
import type { FrontEnd } from '../../signal/index.js';
import type { Grid } from '../../rhythm/index.js';
import type { Decibels, Fraction, Seconds } from '../../units/index.js';
import type { AnalysisEvent } from '../analysis.js';

/** Level of silence, as a power under the loud end of a group. */
const FLOOR = 1e-4;
/** Bars on either side of a one whose sound is compared. */
const SPAN_BARS = 2;
/** Groups of frequencies of kick and bass. */
const LOW_GROUPS = 2;

/** Share of the layer changes, by their decibels, that fall on one of some moments, to within half a beat. */
export function changesOn(events: readonly AnalysisEvent[], ones: readonly Seconds[], halfBeat: Seconds): Fraction {
  const weight = (e: AnalysisEvent) => Math.abs(e.decibels) * (e.confidence ?? 1);
  const all = events.reduce((sum, e) => sum + weight(e), 0);
  const hit = events.filter((e) => ones.some((t) => Math.abs(t - e.time) <= halfBeat));
  return all > 0 ? hit.reduce((sum, e) => sum + weight(e), 0) / all : 0;
}

/** How much the level changes across a one: mean over the ones and over groups of frequencies, two bars on either side. */
export function soundChange(steps: StepTable, grid: Grid, beats: readonly number[]): Decibels {
  const span = SPAN_BARS * grid.metre.beatsPerBar * STEPS_PER_BEAT;
  const changes = beats.flatMap((beat) => {
    const row = rowOf(grid, beat);
    if (row - span / 2 < 0 || row + span / 2 > steps.rows) return [];
    const [before, after] = [levels(steps, row - span, row), levels(steps, row, row + span)];
    return [before.reduce((sum, v, g) => sum + Math.abs(after[g] - v), 0) / GROUPS];
  });
  return mean(changes);
}

/** How much louder kick and bass strike on some beats than on all beats. */
export function lowAccent(steps: StepTable, grid: Grid, beats: readonly number[]): Decibels {
  const rise = (beat: number) => {
    const row = rowOf(grid, beat);
    let sum = 0;
    for (let g = 0; g < LOW_GROUPS; g++) sum += steps.flux[row * GROUPS + g] ?? 0;
    return (10 * sum) / LOW_GROUPS;
  };
  const first = grid.bars[0].firstBeat;
  const all = Array.from({ length: grid.beats.length - first }, (_, i) => rise(first + i));
  return mean(beats.map(rise)) - mean(all);
}

/** How unlike the harmony of the beat from a one is to that of the beat before: 0 the same notes, 1 no note in common. */
export function harmonyChange({ chroma }: FrontEnd, grid: Grid, beats: readonly number[]): Fraction {
  const at = (beat: number): Float64Array | null => {
    const [from, to] = [grid.beats[beat], grid.beats[beat + 1]];
    if (from === undefined || to === undefined) return null;
    const sum = new Float64Array(12);
    const last = Math.min(Math.ceil(to * chroma.rate), chroma.rows);
    for (let r = Math.max(Math.ceil(from * chroma.rate), 0); r < last; r++)
      for (let c = 0; c < 12; c++) sum[c] += chroma.values[r * 12 + c];
    const length = Math.hypot(...sum);
    return length > 0 ? sum.map((v) => v / length) : null;
  };
  const changes = beats.flatMap((beat) => {
    const [before, after] = [at(beat - 1), at(beat)];
    return before && after ? [1 - after.reduce((sum, v, c) => sum + v * before[c], 0)] : [];
  });
  return Math.min(Math.max(mean(changes), 0), 1);
}

function rowOf(grid: Grid, beat: number): number {
  return (beat - grid.bars[0].firstBeat) * STEPS_PER_BEAT;
}

function levels(steps: StepTable, from: number, to: number): number[] {
  const [first, last] = [Math.max(from, 0), Math.min(to, steps.rows)];
  return Array.from({ length: GROUPS }, (_, g) => {
    let sum = 0;
    for (let r = first; r < last; r++) sum += steps.power[r * GROUPS + g];
    return 10 * Math.log10(FLOOR + sum / Math.max(last - first, 1));
  });
}

function mean(values: readonly number[]): number {
  return values.length > 0 ? values.reduce((a, b) => a + b, 0) / values.length : 0;
}
