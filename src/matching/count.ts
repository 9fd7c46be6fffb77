import type { AnalysisSection, TrackAnalysis } from '../track/index.js';
import type { BarNumber, Fraction, Layer, Seconds } from '../units/index.js';
import type { CountedBar } from './counted-bar.js';
import { hearingOf, type Hearing } from './hearing.js';
import { supportOf } from './support.js';

export type { CountedBar } from './counted-bar.js';

/** An analysis as a count: everything by index of the beat. */
export interface TrackCount {
  readonly analysis: TrackAnalysis;
  readonly beats: readonly Seconds[];
  /** Beats, and one more for the end of the last bar. */
  readonly end: number;
  readonly bars: readonly CountedBar[];
  /** Index of the bar that each beat lies in; −1 before the first. */
  readonly barOf: Int32Array;
  /** How well each bar is borne out as the start of a phrase, in the order of `bars`. */
  readonly support: readonly Fraction[];
  /** How surely bass and voice are heard in each, in the order of `bars`. */
  readonly hearing: Hearing;
}

/** Reads an analysis as a count. */
export function countOf(analysis: TrackAnalysis): TrackCount {
  const { beats } = analysis;
  const phrases = new Map(analysis.phrases.map((p) => [p.startBar, p]));
  const sections = new Map(analysis.sections.map((s) => [s.startBar, s]));
  let section: AnalysisSection | null = null;
  const bars = analysis.bars.map((bar): CountedBar => {
    const startsSection = sections.get(bar.number) ?? null;
    section = startsSection ?? (section !== null && bar.number > section.endBar ? null : section);
    const startsPhrase = phrases.get(bar.number) ?? null;
    return { ...bar, firstBeat: nearest(beats, bar.start), section, startsPhrase, startsSection };
  });
  const last = bars.at(-1);
  const end = last ? Math.min(last.firstBeat + last.beats, beats.length) : 0;
  const barOf = new Int32Array(beats.length + 1).fill(-1);
  bars.forEach((bar, i) => barOf.fill(i, bar.firstBeat, i + 1 < bars.length ? bars[i + 1].firstBeat : barOf.length));
  return {
    analysis,
    beats,
    end,
    bars,
    barOf,
    support: supportOf({ analysis, bars }),
    hearing: hearingOf({ analysis, bars }),
  };
}

/** Time of a beat; beyond the ends by the tempo there. */
export function timeOfBeat({ beats }: Pick<TrackCount, 'beats'>, index: number): Seconds {
  const last = beats.length - 1;
  const whole = Math.min(Math.max(Math.floor(index), 0), Math.max(last - 1, 0));
  const period = beats[whole + 1] - beats[whole];
  return beats[whole] + (index - whole) * period;
}

/** The bar that starts on a beat, `null` where none does. */
export function barStartingAt(count: TrackCount, beat: number): CountedBar | null {
  const bar = barAt(count, beat);
  return bar?.firstBeat === beat ? bar : null;
}

/** The bar that a beat lies in. */
export function barAt({ bars, barOf }: TrackCount, beat: number): CountedBar | null {
  const index = Math.floor(beat);
  return index >= 0 && index < barOf.length && barOf[index] >= 0 ? bars[barOf[index]] : null;
}

/** Presence of a layer in a bar, 0 to 1; `null` where it cannot be judged. */
export function presence({ analysis, bars }: TrackCount, layer: Layer, bar: CountedBar): number | null {
  const index = bars[0] === undefined ? -1 : bar.number - bars[0].number;
  return analysis.layers[layer][index] ?? null;
}

/** A bar by its number. */
export function barNumbered({ bars }: TrackCount, number: BarNumber): CountedBar | null {
  return bars[number - (bars[0]?.number ?? 1)] ?? null;
}

function nearest(times: readonly Seconds[], time: Seconds): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < time) low = middle + 1;
    else high = middle;
  }
  return low > 0 && Math.abs(times[low - 1] - time) <= Math.abs(times[low] - time) ? low - 1 : low;
}
