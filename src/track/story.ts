import { basename } from 'node:path';
import type { Confidence, Fraction } from '../units/index.js';
import { barRange, LAYERS } from '../units/index.js';
import {
  changeWords,
  doubtWord,
  explainStored,
  isSure,
  keyName,
  onTheOne,
  tempoDoubt,
  tempoReading,
  withDoubt,
  wordsOf,
  type DoubtSubject,
  type Language,
} from '../wording/index.js';
import type { AnalysisIrregularity, AnalysisPhrase, TrackAnalysis } from './analysis.js';
import { correctionWords } from './corrections/index.js';

/** A track told in plain words; every sentence is whole. @experimental */
export interface TrackStory {
  readonly title: string;
  readonly opening: readonly string[];
  /** What somebody has said about it. */
  readonly corrected: readonly string[];
  readonly sections: readonly StorySection[];
  readonly breaks: readonly StoryBreak[];
  /** What is to be said where there are none: that every phrase fits, or that none is surely odd. */
  readonly noBreaks: string;
  readonly doubts: readonly string[];
}

/** A section, and what happens on each of its phrase ones and between. @experimental */
export interface StorySection {
  readonly head: string;
  readonly items: readonly string[];
}

/** A place where the track leaves its own pattern. @experimental */
export interface StoryBreak {
  readonly sentence: string;
  /** What speaks for it, in numbers with units. */
  readonly evidence: string | null;
  /** Another way to count it, where there is one. */
  readonly alternative: string | null;
  /** How sure it is, in a word and a figure. */
  readonly doubt: string;
}

/** Other readings are told from this share on. */
const TOLD: Fraction = 0.1;

/**
 * Tells a track: its sections and phrases, what happens on each one, where it leaves its pattern, and what is in doubt.
 * @experimental
 */
export function tellTrack(analysis: TrackAnalysis, language: Language = 'en'): TrackStory {
  const { story } = wordsOf(language);
  return {
    title: titleOf(analysis),
    opening: openingOf(analysis, language),
    corrected: analysis.corrections.map((c) => capital(`${correctionWords(c, language)}.`)),
    sections: sectionsOf(analysis, language),
    breaks: analysis.irregularities.map((i) => breakOf(i, analysis, language)),
    noBreaks: oddPhrasesUntold(analysis).length > 0 ? story.noneSure : story.regular,
    doubts: doubtsOf(analysis, language),
  };
}

/** Phrases out of the pattern that no irregularity speaks of: none is sure enough to be called one. @experimental */
export function oddPhrasesUntold({ irregularities, phrases }: TrackAnalysis): readonly AnalysisPhrase[] {
  const told = new Set(irregularities.filter((i) => 'usualBars' in i.parameters).map((i) => i.parameters['endBar']));
  return phrases.filter((p) => !p.regular && !told.has(p.endBar));
}

function titleOf({ source }: TrackAnalysis): string {
  const { title, artist } = source.tags;
  if (!title?.trim()) return basename(source.file);
  return artist?.trim() ? `${title} – ${artist}` : title;
}

function openingOf(analysis: TrackAnalysis, language: Language): string[] {
  const words = wordsOf(language);
  const { tempo, metre, bars, source, phraseBars, key } = analysis;
  const first = bars.find((b) => b.number >= 1);
  return [
    words.story.opening({
      tempo: tempoWords(analysis, language),
      steadiness: tempo.steadiness,
      beatsPerBar: metre.beatsPerBar,
      bars: bars.length,
      length: words.clock(source.durationSeconds, 0),
      phraseBars,
    }),
    ...(first === undefined ? [] : [words.story.firstOne(first.number, first.start)]),
    ...(key.tonic === null || key.mode === null
      ? []
      : [words.story.key(withDoubt(keyName(key.tonic, key.mode, language), key.confidence, language))]),
  ];
}

/** "124 BPM", "87 or 174 BPM?" */
function tempoWords(analysis: TrackAnalysis, language: Language): string {
  const question = tempoReading(analysis, language);
  return question.endsWith('?') ? `${question.slice(0, -1)} BPM?` : `${question} BPM`;
}

function sectionsOf(analysis: TrackAnalysis, language: Language): StorySection[] {
  const words = wordsOf(language);
  return analysis.sections.map((section, i) => {
    const { startBar, endBar, start, letter, confidence } = section;
    const name = words.functions[section.function];
    const phrases = analysis.phrases.filter((p) => p.startBar >= startBar && p.endBar <= endBar);
    const head = words.story.section({
      name: capital(name),
      doubt: isSure(confidence) ? '' : doubtWord(confidence, language),
      startBar,
      endBar,
      start,
      bars: endBar - startBar + 1,
      phrases: phrases.map((p) => p.bars),
    });
    const like = analysis.sections.slice(0, i).findLast((s) => s.letter === letter && letter !== '');
    const repeats = like ? `; ${words.story.like(words.functions[like.function], like.startBar)}` : '';
    return {
      head: `${head}${repeats}.`,
      items: phrases.flatMap((p) => phraseItems(analysis, p, p.startBar === startBar, language)),
    };
  });
}

/** What happens on the one of a phrase, and the events after it. */
function phraseItems(analysis: TrackAnalysis, phrase: AnalysisPhrase, first: boolean, language: Language): string[] {
  const { story } = wordsOf(language);
  const own = analysis.events.filter((e) => e.bar >= phrase.startBar && e.bar <= phrase.endBar);
  const section = first ? analysis.sections.find((s) => s.startBar === phrase.startBar) : undefined;
  const one = own.filter((e) => e.bar === phrase.startBar && e.beat === 1);
  const said = onTheOne(section?.function === 'drop' ? 'drop' : null, one, language) || story.nothingChanges;
  const head = `${story.place(phrase.startBar, phrase.start)}, ${story.phrase(phrase.number, phrase.bars)}: ${said}`;
  const rest = own.filter((e) => !one.includes(e));
  const moments = [...new Set(rest.map((e) => `${e.bar}/${e.beat}`))].map((key) => {
    const events = rest.filter((e) => `${e.bar}/${e.beat}` === key);
    const [{ bar, beat, time }] = events;
    const place = beat === 1 ? story.place(bar, time) : story.placeOfBeat(bar, beat, time);
    return `${place}: ${changeWords(events, language).join(', ')}`;
  });
  return [head, ...moments];
}

function breakOf(irregularity: AnalysisIrregularity, analysis: TrackAnalysis, language: Language): StoryBreak {
  const { story } = wordsOf(language);
  const { confidence, evidence, parameters } = irregularity;
  const told = Object.entries(evidence)
    .map(([name, value]) => story.number(name, value))
    .filter((text): text is string => text !== null);
  const other = parameters['alternativeBar'];
  const [at, share] = [parameters['alternativeStart'], parameters['alternativeShare']];
  const known = typeof other === 'number' && typeof at === 'number' && typeof share === 'number';
  return {
    sentence: explainStored(irregularity, analysis, language),
    evidence: told.length > 0 ? story.evidence(told) : null,
    alternative: known ? story.orStartsAt(other, at, share) : null,
    doubt: sureness(confidence, language),
  };
}

function sureness(confidence: Confidence, language: Language): string {
  const word = doubtWord(confidence, language);
  return confidence === null ? word : wordsOf(language).story.doubtWith(word, wordsOf(language).percent(confidence));
}

function doubtsOf(analysis: TrackAnalysis, language: Language): string[] {
  const words = wordsOf(language);
  const { story } = words;
  const said: string[] = [];
  const question = tempoDoubt(analysis);
  if (question !== null) said.push(story.tempoDoubt(question));
  const judge = <T extends { weight: Fraction }>(
    what: DoubtSubject,
    confidence: Confidence,
    others: readonly T[],
    name: (item: T) => string,
  ) => {
    if (isSure(confidence)) return;
    const told = others.slice(1).filter((o) => o.weight >= TOLD);
    // The opening has said already how sure the key is.
    if (what === 'key' && told.length === 0) return;
    const readings = told.map((o) => `${name(o)} (${words.percent(o.weight)})`);
    said.push(story.doubtOf(what, doubtWord(confidence, language), words.list(readings)));
  };
  const { tempo, metre, beatPhase, downbeat, key } = analysis;
  if (question === null) judge('tempo', tempo.confidence, tempo.alternatives, (a) => `${words.number(a.bpm, 2)} BPM`);
  judge('metre', metre.confidence, metre.alternatives, (a) => words.beats(a.beatsPerBar));
  judge('beat', beatPhase.confidence, [], () => '');
  judge('bar one', downbeat.confidence, downbeat.alternatives, (a) => story.shiftedOne(a.shiftBeats));
  if (key.tonic !== null) judge('key', key.confidence, key.alternatives, (a) => keyName(a.tonic, a.mode, language));
  for (const { startBar, endBar, bars } of oddPhrasesUntold(analysis))
    said.push(words.card.phraseHas(barRange(startBar, endBar), bars, analysis.phraseBars));
  for (const layer of LAYERS) {
    const unjudged = analysis.layers[layer].filter((p) => p === null).length;
    if (unjudged > 0) said.push(story.layerDoubt(words.layers[layer], unjudged, analysis.bars.length));
  }
  return said.length > 0 ? said : [story.noDoubt];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
