import { countLabel, type BarNumber, type Seconds } from '../units/index.js';
import { changeWords, onTheOne, wordsOf, type Language, type StoryWords } from '../wording/index.js';
import type { AnalysisIrregularity, TrackAnalysis } from './analysis.js';

/** One bar as it is counted, and what happens in it. @experimental */
export interface CountRow {
  readonly bar: BarNumber;
  readonly time: Seconds;
  /** Bar of the group and beat: "3 · 1". */
  readonly count: string;
  readonly group: number;
  readonly phrase: number;
  readonly phraseBar: number;
  readonly phraseBars: number;
  /** Name of the section's function; empty where no section is known. */
  readonly section: string;
  /** In few words, in the order of time. */
  readonly happens: readonly string[];
}

/**
 * Every bar of a track with its count and what happens in it: where everything that is told can be looked up.
 * @experimental
 */
export function countRows(analysis: TrackAnalysis, language: Language = 'en'): CountRow[] {
  const words = wordsOf(language);
  const notes = notesOf(analysis, words.story.notes);
  return analysis.bars.map((bar) => {
    const section = analysis.sections.find((s) => s.startBar <= bar.number && bar.number <= s.endBar);
    const events = analysis.events.filter((e) => e.bar === bar.number);
    const one = onTheOne(
      section?.startBar === bar.number ? section.function : null,
      events.filter((e) => e.beat === 1),
      language,
    );
    const beats = [...new Set(events.filter((e) => e.beat > 1).map((e) => e.beat))].sort((a, b) => a - b);
    const later = beats.map((beat) => {
      const own = events.filter((e) => e.beat === beat);
      const at = words.story.placeOfBeat(bar.number, beat, own[0].time);
      return `${at}: ${changeWords(own, language).join(', ')}`;
    });
    return {
      bar: bar.number,
      time: bar.start,
      count: countLabel(bar.groupBar, 1),
      group: bar.group,
      phrase: bar.phrase,
      phraseBar: bar.phraseBar,
      phraseBars: analysis.phrases.find((p) => p.number === bar.phrase)?.bars ?? bar.phraseBar,
      section: section === undefined ? '' : words.functions[section.function],
      happens: [one, ...later, ...(notes.get(bar.number) ?? [])].filter((text) => text !== ''),
    };
  });
}

/** What the irregularities have to say at single bars. */
function notesOf(analysis: TrackAnalysis, say: StoryWords['notes']): Map<BarNumber, string[]> {
  const notes = new Map<BarNumber, string[]>();
  const note = (bar: BarNumber | null, text: string) => {
    if (bar !== null) notes.set(bar, [...(notes.get(bar) ?? []), text]);
  };
  for (const irregularity of analysis.irregularities) {
    const value = (name: string) => numberOf(irregularity, name);
    const { kind, bar } = irregularity;
    const [bars, usual, endBar] = [value('bars'), value('usualBars'), value('endBar')];
    const next = endBar === null ? null : endBar + 1;
    if (kind === 'added-bars' && bars !== null && usual !== null) note(bar, say.over(bars - usual));
    if (kind === 'dropped-bars' && bars !== null && usual !== null) note(bar, say.shortBefore(usual - bars));
    if (kind === 'odd-phrase' && bars !== null) note(bar, say.odd(bars));
    if (kind === 'added-beats' || kind === 'dropped-beats')
      note(bar, say.beats(analysis.bars.find((b) => b.number === bar)?.beats ?? 0));
    if (kind === 'pick-up') notePickUp(analysis, irregularity, say, note);
    if (kind === 'beatless-passage') {
      note(bar, say.beatless());
      note(next, say.beatBack());
    }
    if (kind === 'half-time') {
      note(bar, say.halfTime());
      note(next, say.halfTimeEnds());
    }
    if (kind === 'tempo-change') note(bar, say.tempo(value('toBpm') ?? analysis.tempo.bpm));
    if (kind === 'drift') note(bar, say.drift(value('lowestBpm') ?? 0, value('highestBpm') ?? 0));
    const other = value('alternativeBar');
    if (other !== null) note(other, say.maybePhrase());
  }
  return notes;
}

function notePickUp(
  analysis: TrackAnalysis,
  irregularity: AnalysisIrregularity,
  say: StoryWords['notes'],
  note: (bar: BarNumber | null, text: string) => void,
): void {
  const start = numberOf(irregularity, 'startTime') ?? irregularity.time;
  const before = analysis.bars.findLast((b) => b.start <= start + 1e-3);
  note(before?.number ?? null, say.pickUp(numberOf(irregularity, 'beats') ?? 0, start));
  note(irregularity.bar, say.pickUpTo());
}

function numberOf({ parameters }: AnalysisIrregularity, name: string): number | null {
  const value = parameters[name];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}
