import type { Irregularity } from '../form/index.js';
import type { Evidence } from '../rhythm/index.js';
import type { BarNumber, Change, Layer, Seconds } from '../units/index.js';
import { LAYERS } from '../units/index.js';
import { wordsOf, type Speech } from './languages.js';
import type { StoredIrregularity } from './remark.js';
import type { Filler, LengthFacts } from './sentences.js';

/** As much of a track as a sentence needs; a grid and a form have it, and so has what is stored of them. */
export interface ExplainContext {
  readonly grid: {
    readonly metre: { readonly beatsPerBar: number };
    readonly bars: readonly { readonly number: BarNumber; readonly start: Seconds; readonly beats: number }[];
  };
  readonly form: {
    readonly phraseBars: number;
    readonly sections: readonly { readonly startBar: BarNumber; readonly endBar: BarNumber }[];
    readonly events: readonly { readonly time: Seconds; readonly layer: Layer; readonly change: Change }[];
  };
}

/** Onsets denser by this factor than in the phrase before are called a roll. */
const ROLL_RATIO = 1.4;
/** Bars quieter by this many dB than the phrase before are said to fall back. */
const QUIET_DECIBELS = -6;
/** An event this close to a moment belongs to it. */
const SAME_MOMENT: Seconds = 0.05;

/** One plain sentence for an irregularity: what, where in bars and clock time, and where to count from again. */
export function explain(irregularity: Irregularity, context: ExplainContext, language: Speech = 'en'): string {
  const say = wordsOf(language).irregularity;
  const { bars, metre } = context.grid;
  const barAt = (number: BarNumber) => bars.find((b) => b.number === number) ?? null;
  const next = (number: BarNumber) => {
    const following = barAt(number + 1);
    return { nextBar: following?.number ?? null, nextStart: following?.start ?? null };
  };
  switch (irregularity.kind) {
    case 'added-bars':
      return say.added(lengthFacts(irregularity, context));
    case 'dropped-bars':
      return say.dropped(lengthFacts(irregularity, context));
    case 'odd-phrase':
      return say.odd(lengthFacts(irregularity, context));
    case 'pick-up': {
      const { startTime, beats, bar, time } = irregularity;
      const entering = context.form.events.filter(
        (e) => e.change === 'enters' && Math.abs(e.time - startTime) < SAME_MOMENT,
      );
      const layers = LAYERS.filter((l) => entering.some((e) => e.layer === l));
      return say.pickUp({ layers, beats, bar, startTime, time });
    }
    case 'added-beats':
    case 'dropped-beats': {
      const { bar, time, kind } = irregularity;
      const sign = kind === 'added-beats' ? 1 : -1;
      const told = barAt(bar)?.beats;
      const usualBeats = metre.beatsPerBar;
      const beats = told === undefined || told === usualBeats ? usualBeats + sign * irregularity.beats : told;
      return say.beats({ bar, time, beats, usualBeats, ...next(bar) });
    }
    case 'tempo-change':
      return say.tempoChange({
        bar: irregularity.bar,
        time: irregularity.time,
        from: irregularity.fromBpm,
        to: irregularity.toBpm,
      });
    case 'drift':
      return say.drift({ lowest: irregularity.lowestBpm, highest: irregularity.highestBpm });
    case 'half-time': {
      const { bar, endBar, time, countedBpm, feltBpm } = irregularity;
      return say.halfTime({ startBar: bar, endBar, time, counted: countedBpm, felt: feltBpm });
    }
    case 'beatless-passage': {
      const { bar, endBar, time } = irregularity;
      return say.beatless({ startBar: bar, endBar, time, ...next(endBar) });
    }
  }
}

type LengthIrregularity = Extract<Irregularity, { kind: 'added-bars' | 'dropped-bars' | 'odd-phrase' }>;

function lengthFacts(irregularity: LengthIrregularity, { form }: ExplainContext): LengthFacts {
  const { startBar, endBar, bars, usualBars, nextStart, evidence } = irregularity;
  return {
    function: irregularity.function,
    wholeSection: form.sections.some((s) => s.startBar === startBar && s.endBar === endBar),
    startBar,
    endBar,
    bars,
    usualBars,
    usualOfTrack: usualBars === form.phraseBars,
    nextBar: endBar + 1,
    nextStart,
    filler: irregularity.kind === 'added-bars' ? fillerOf(evidence) : null,
  };
}

function fillerOf({ onsetRatio, levelDecibels }: Evidence): Filler | null {
  if (onsetRatio === undefined || levelDecibels === undefined) return null;
  if (onsetRatio >= ROLL_RATIO) return 'roll';
  return levelDecibels <= QUIET_DECIBELS ? 'quiet' : 'repeat';
}

/** A stored track as far as its sentences need it. */
export interface StoredContext {
  readonly metre: ExplainContext['grid']['metre'];
  readonly bars: ExplainContext['grid']['bars'];
  readonly phraseBars: number;
  readonly sections: ExplainContext['form']['sections'];
  readonly events: ExplainContext['form']['events'];
}

/** The sentence for an irregularity as it is stored: the way to say it in another language than it was stored in. */
export function explainStored(
  stored: StoredIrregularity & {
    readonly time: Seconds;
    readonly confidence: number | null;
    readonly evidence: Evidence;
  },
  track: StoredContext,
  language: Speech = 'en',
): string {
  const { kind, bar, time, confidence, evidence, parameters } = stored;
  const irregularity = { ...parameters, kind, bar, time, confidence, evidence } as unknown as Irregularity;
  return explain(irregularity, { grid: track, form: track }, language);
}
