import { findForm, stepTable } from '../../form/index.js';
import { softmax } from '../../learned/index.js';
import type { Grid, GridBar } from '../../rhythm/index.js';
import {
  BARS_IN_GROUP,
  throwIfAborted,
  type Decibels,
  type Fraction,
  type RunOptions,
  type Seconds,
} from '../../units/index.js';
import type { HeardTrack } from '../analyse.js';
import type { TrackAnalysis } from '../analysis.js';
import { gridOf } from '../grid-of.js';
import { changesOn, harmonyChange, lowAccent, soundChange } from './measures.js';

/** What two readings of the one are held against each other by. @experimental */
export const EVIDENCE_KINDS = ['changesShare', 'soundDecibels', 'harmonyShare', 'lowDecibels'] as const;
/** One of `EVIDENCE_KINDS`. @experimental */
export type EvidenceKind = (typeof EVIDENCE_KINDS)[number];

/** One answer to "what if the one were later?", with everything that speaks for it. @experimental */
export interface OneReading {
  /** How much later every phrase one lies than in the analysis; 0 is the analysis itself. */
  readonly shiftBeats: number;
  /** The same in whole bars where it is a number of whole bars, else `null`. */
  readonly shiftBars: number | null;
  /** Where phrase one of the first whole phrase would be. */
  readonly firstOne: Seconds;
  /** Share of the model's evidence among the readings compared here; they sum to 1. */
  readonly weight: Fraction;
  readonly evidence: {
    /** Share of the layer changes (by their decibels) that fall on a phrase one, from 0 to 1. */
    readonly changesShare: Fraction;
    /** Mean change of level across a phrase one, over all frequencies, two bars before against two bars after (dB). */
    readonly soundDecibels: Decibels;
    /** Mean change of harmony from the beat before a one of a bar (or phrase) to that one, from 0 to 1. */
    readonly harmonyShare: Fraction;
    /** How much harder kick and bass strike on the one of a bar (or phrase) than on any beat (dB). */
    readonly lowDecibels: Decibels;
  };
  /** The phrases as they would be, by their lengths in bars. */
  readonly phraseBars: readonly number[];
  /** How many of them would break the groups of four. */
  readonly oddPhrases: number;
}

/** Readings side by side, the one of the analysis first. @experimental */
export interface OneComparison {
  /** Which beat is the one of the bar: shifted by single beats. */
  readonly byBeat: readonly OneReading[];
  /** Which bar is the one of the phrase: shifted by whole bars. */
  readonly byBar: readonly OneReading[];
}

/** What of the readings of the one is compared, and where. @experimental */
export interface CompareOptions extends RunOptions {
  /** Whole bars by which the one is shifted; by default 1, 2, 3 and half a phrase. */
  readonly bars?: readonly number[];
}

/**
 * "What if the one were a beat, a bar, two bars later?": every phrase one is shifted, the form is found again under that,
 * and the evidence for each reading stands side by side.
 * @experimental
 * @param heard the track that the analysis was made from
 * @throws BarwiseError `aborted`
 * @example
 * const { analysis, heard } = await analyseWithCurves('track.mp3');
 * const { byBar } = compareOnes(heard, analysis);
 */
export function compareOnes(heard: HeardTrack, analysis: TrackAnalysis, options: CompareOptions = {}): OneComparison {
  const grid = gridOf(analysis);
  const { beatsPerBar } = analysis.metre;
  if (grid.bars.length < 2) return { byBeat: [], byBar: [] };
  const usual = [1, 2, 3, Math.floor(analysis.phraseBars / 2)];
  const bars = [...new Set(options.bars ?? usual)].filter((n) => n >= 1 && n < grid.bars.length);
  const beats = Array.from({ length: beatsPerBar - 1 }, (_, i) => i + 1);
  let done = 0;
  const total = bars.length + beats.length + 2;
  const step = <T>(work: () => T): T => {
    throwIfAborted(options.signal);
    const result = work();
    options.onProgress?.({ stage: 'comparing readings', done: ++done / total });
    return result;
  };
  const shifted = (shift: number, level: 'bar' | 'phrase') =>
    step(() => readingOf(heard, analysis, grid, shift, level));
  const byBeat = [0, ...beats].map((n) => shifted(n, 'bar'));
  const byBar = [0, ...bars].map((n) => shifted(n * beatsPerBar, 'phrase'));
  const told = (shift: number) => analysis.downbeat.alternatives.find((a) => a.shiftBeats === shift)?.weight ?? 0;
  const weights = softmax(byBar.map((r) => r.form.logEvidence));
  return {
    byBeat: byBeat.map(({ reading }) => ({ ...reading, weight: told(reading.shiftBeats) })),
    byBar: byBar.map(({ reading }, i) => ({ ...reading, weight: weights[i] })),
  };
}

/** A reading with every one `shift` beats later. @param level whether harmony and accents are looked at on every bar or on phrases */
function readingOf(heard: HeardTrack, analysis: TrackAnalysis, grid: Grid, shift: number, level: 'bar' | 'phrase') {
  const { frontEnd } = heard;
  const beatsPerBar = grid.metre.beatsPerBar;
  const moved = shift % beatsPerBar === 0 ? grid : shiftedGrid(grid, shift);
  const later = (firstBeat: number) => firstBeat + shift;
  const starts = analysis.phrases.map((p) => grid.bars.find((b) => b.number === p.startBar)?.firstBeat ?? 0);
  const ones = starts.map(later).filter((b) => b < grid.beats.length);
  const times = ones.map((b) => grid.beats[b]);
  const others = shift > 0 && moved === grid ? starts.map((b) => grid.beats[b]) : [];
  const form = findForm(frontEnd, moved, {
    phraseStarts: times,
    noPhraseStarts: others.filter((t) => !times.includes(t)),
  });
  const barOnes = moved.bars.map((b) => b.firstBeat).filter((b) => b > 0);
  const looked = level === 'bar' ? barOnes : ones.filter((b) => b > 0);
  const steps = stepTable(frontEnd, moved);
  const reading: Omit<OneReading, 'weight'> = {
    shiftBeats: shift,
    shiftBars: shift % beatsPerBar === 0 ? shift / beatsPerBar : null,
    firstOne: times[0] ?? grid.beats[0],
    evidence: {
      changesShare: changesOn(
        analysis.events.filter((e) => e.time > grid.beats[1]),
        times,
        30 / analysis.tempo.bpm,
      ),
      soundDecibels: soundChange(
        steps,
        moved,
        ones.filter((b) => b > 0),
      ),
      harmonyShare: harmonyChange(frontEnd, moved, looked),
      lowDecibels: lowAccent(steps, moved, looked),
    },
    phraseBars: form.phrases.map((p) => p.bars),
    oddPhrases: form.phrases.filter((p) => p.bars % BARS_IN_GROUP !== 0).length,
  };
  return { reading, form };
}

/** The same beats with every bar later by some beats, less than a bar; what is before the first one is bar 0. */
function shiftedGrid(grid: Grid, shift: number): Grid {
  const end = grid.bars[grid.bars.length - 1].end;
  const first = grid.bars[0].firstBeat;
  const starts = [...grid.bars.map((b) => b.firstBeat + shift)].filter((b) => b < grid.beats.length);
  const edges = [first, ...starts];
  const bars = edges.map((firstBeat, i): GridBar => {
    const next = edges[i + 1] ?? grid.beats.length;
    return {
      number: i,
      start: grid.beats[firstBeat],
      end: grid.beats[next] ?? end,
      beats: next - firstBeat,
      firstBeat,
    };
  });
  return { ...grid, bars, irregularities: [] };
}
