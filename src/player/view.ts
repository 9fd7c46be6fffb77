import type { AnalysisBar, AnalysisPhrase, AnalysisSection, TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';
import { momentsOf, type Moment } from './moments.js';

/** A bar as the page counts it. */
export interface ViewBar extends AnalysisBar {
  /** Start of what follows. */
  readonly end: Seconds;
  /** Index of its first beat among the beats of the track. */
  readonly firstBeat: number;
  /** What its first beat is called: 1, but 2 for a pick-up of three beats before a bar of four. */
  readonly firstCount: number;
}

/** A reading of a track, laid out for looking things up by time. */
export interface TrackView {
  readonly analysis: TrackAnalysis;
  readonly bars: readonly ViewBar[];
  readonly barStarts: readonly Seconds[];
  readonly beats: readonly Seconds[];
  readonly moments: readonly Moment[];
  readonly momentTimes: readonly Seconds[];
}

/** Lays a reading out for looking things up by time. */
export function viewOf(analysis: TrackAnalysis): TrackView {
  let firstBeat = 0;
  const last = analysis.bars.length - 1;
  const bars = analysis.bars.map((bar, i): ViewBar => {
    const view = {
      ...bar,
      end: i < last ? analysis.bars[i + 1].start : endOf(analysis),
      firstBeat,
      firstCount: bar.number < 1 ? Math.max(analysis.metre.beatsPerBar - bar.beats, 0) + 1 : 1,
    };
    firstBeat += bar.beats;
    return view;
  });
  const moments = momentsOf(analysis);
  return {
    analysis,
    bars,
    barStarts: bars.map((b) => b.start),
    beats: analysis.beats,
    moments,
    momentTimes: moments.map((m) => m.time),
  };
}

/** Where the last bar ends. */
function endOf(analysis: TrackAnalysis): Seconds {
  return analysis.phrases.at(-1)?.end ?? analysis.source.durationSeconds;
}

/** The phrase with this number. */
export function phraseOf(view: TrackView, number: number): AnalysisPhrase | undefined {
  return view.analysis.phrases.find((p) => p.number === number);
}

/** The section a bar lies in. */
export function sectionOf(view: TrackView, bar: number): AnalysisSection | undefined {
  return view.analysis.sections.find((s) => s.startBar <= bar && bar <= s.endBar);
}
