import type { Seconds } from '../units/index.js';
import { changeWords, tempoNumber, wordsOf, type ChangedSubject, type Language } from '../wording/index.js';
import type { TrackAnalysis } from './analysis.js';

/** Two moments nearer than this are the same one (s). */
const SAME: Seconds = 0.05;

/** Something in which two analyses of a track differ; empty where one of them has nothing there. @experimental */
export interface AnalysisChange {
  readonly what: ChangedSubject;
  readonly before: string;
  readonly after: string;
}

/** Everything a person can see in which two analyses of one track differ, by subject and time. @experimental */
export function changesBetween(
  before: TrackAnalysis,
  after: TrackAnalysis,
  language: Language = 'en',
): AnalysisChange[] {
  const words = wordsOf(language);
  const changes: AnalysisChange[] = [];
  const note = (what: ChangedSubject, was: string, is: string) => {
    if (was !== is) changes.push({ what, before: was, after: is });
  };
  const both = (what: ChangedSubject, say: (a: TrackAnalysis) => string) => note(what, say(before), say(after));
  both('tempo', (a) => `${tempoNumber(a.tempo.bpm, language)} BPM`);
  both('metre', (a) => words.beats(a.metre.beatsPerBar));
  both('first one', (a) => firstOne(a, language));
  both('beats', (a) => `${a.beats.length}`);
  both('bars', (a) => `${a.bars.length}`);
  const place = (bar: number, time: Seconds) => words.story.place(bar, time);
  const set = (what: ChangedSubject, of: (a: TrackAnalysis) => Item[]) =>
    changes.push(...differences(what, of(before), of(after)));
  set('phrase', (a) => a.phrases.map((p) => ({ time: p.start, key: '', said: place(p.startBar, p.start) })));
  set('section', (a) =>
    a.sections.map((s) => ({
      time: s.start,
      key: s.function,
      said: `${words.functions[s.function]}, ${place(s.startBar, s.start)}`,
    })),
  );
  set('event', (a) =>
    a.events.map((e) => ({
      time: e.time,
      key: `${e.layer} ${e.change}`,
      said: `${changeWords([e], language)[0]}, ${place(e.bar, e.time)}`,
    })),
  );
  set('irregularity', (a) =>
    a.irregularities.map((i) => ({
      time: i.time,
      key: i.kind,
      said: `${i.kind.replace('-', ' ')}, ${place(i.bar, i.time)}`,
    })),
  );
  return changes;
}

interface Item {
  readonly time: Seconds;
  readonly key: string;
  readonly said: string;
}

/** What only one of two lists has; what differs at one time is one change. */
function differences(what: ChangedSubject, before: readonly Item[], after: readonly Item[]): AnalysisChange[] {
  const at = (a: Item) => (b: Item) => Math.abs(a.time - b.time) < SAME;
  const same = (a: Item) => (b: Item) => at(a)(b) && a.key === b.key;
  const gone = before.filter((a) => !after.some(same(a)));
  const fresh = after.filter((b) => !before.some(same(b)));
  const rows = gone.map((a) => {
    const now = fresh.find(at(a));
    if (now) fresh.splice(fresh.indexOf(now), 1);
    return { time: a.time, before: a.said, after: now?.said ?? '' };
  });
  return [...rows, ...fresh.map((b) => ({ time: b.time, before: '', after: b.said }))]
    .sort((a, b) => a.time - b.time)
    .map((row) => ({ what, before: row.before, after: row.after }));
}

function firstOne({ bars }: TrackAnalysis, language: Language): string {
  const first = bars.find((b) => b.number === 1);
  return first ? wordsOf(language).clock(first.start, 2) : '';
}
