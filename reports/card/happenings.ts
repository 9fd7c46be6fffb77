import type { TrackAnalysis } from '../../src/index.js';
import { barRange, oddPhrasesUntold } from '../../src/index.js';
import { doubtWord, explainStored, isSure, onTheOne, LANGUAGES } from '../../src/wording/index.js';
import type { Style } from '../theme/index.js';

/** A moment that can be told from others by ear. */
export interface Landmark {
  readonly bar: number;
  readonly beat: number;
  readonly time: number;
  /** What is heard, in few words. */
  readonly said: string;
}

/** The moments at which most changes, by decibels and how sure they are, in order of time; the opening is none. */
export function landmarks(analysis: TrackAnalysis, style: Style, most: number): readonly Landmark[] {
  const moments = new Map<string, TrackAnalysis['events']>();
  for (const event of analysis.events) {
    if (event.bar <= 1) continue;
    const key = `${event.bar} ${event.beat}`;
    moments.set(key, [...(moments.get(key) ?? []), event]);
  }
  const weight = (events: TrackAnalysis['events']) =>
    events.reduce((sum, e) => sum + Math.abs(e.decibels) * (e.confidence ?? UNJUDGED), 0);
  return [...moments.values()]
    .sort((a, b) => weight(b) - weight(a))
    .slice(0, most)
    .sort((a, b) => a[0].time - b[0].time)
    .map((events) => {
      const [{ bar, beat, time }] = events;
      const section = beat === 1 ? analysis.sections.find((s) => s.startBar === bar) : undefined;
      return { bar, beat, time, said: onTheOne(section?.function ?? null, events, style.words) };
    });
}

/** Weight of an event whose confidence could not be judged. */
const UNJUDGED = 0.3;

/** Where the track leaves its pattern, in sentences: its irregularities, and odd phrases that none of them speaks of. */
export function breakWords(analysis: TrackAnalysis, style: Style): readonly string[] {
  return [...analysis.irregularities.map((i) => irregularityWords(i, analysis, style)), ...untold(analysis, style)];
}

function irregularityWords(
  irregularity: TrackAnalysis['irregularities'][number],
  analysis: TrackAnalysis,
  { words }: Style,
): string {
  // The stored sentence is in English; every other language or wording has it made anew from its facts.
  const said = words === LANGUAGES.en ? irregularity.explanation : saidAnew(irregularity, analysis, words);
  return isSure(irregularity.confidence) ? said : `${said} (${doubtWord(irregularity.confidence, words)})`;
}

/** The sentence from its facts; as it is stored where some of them are missing, as in data made elsewhere. */
function saidAnew(
  irregularity: TrackAnalysis['irregularities'][number],
  analysis: TrackAnalysis,
  words: Style['words'],
): string {
  try {
    const said = explainStored(irregularity, analysis, words);
    return /undefined|NaN/.test(said) ? irregularity.explanation : said;
  } catch (error) {
    if (error instanceof TypeError) return irregularity.explanation;
    throw error;
  }
}

/** Phrases out of the pattern that no irregularity speaks of: the ladder marks them, so the words must, too. */
function untold(analysis: TrackAnalysis, { words }: Style): readonly string[] {
  return oddPhrasesUntold(analysis).map((p) =>
    words.card.phraseHas(barRange(p.startBar, p.endBar), p.bars, analysis.phraseBars),
  );
}
