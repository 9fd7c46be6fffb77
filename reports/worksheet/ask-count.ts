import { isDoubtful } from '../../src/ladder/index.js';
import { barsBetween, beatsOf, firstSection, named, place, type Question, type Source } from './source.js';

/** The next record of a question has an intro of this many usual phrases. */
const INTRO_PHRASES = 1;
/** How much faster a section is to be played, BPM. */
const FASTER = 2;
/** The whole second that a player shows lies so far inside its bar, in seconds. */
const INSIDE = 0.4;

export function beatsBetween(source: Source): Question | null {
  const { style } = source;
  const from = firstSection(source, 'breakdown') ?? firstSection(source, 'build-up');
  const to = firstSection(source, 'drop');
  if (from === undefined || to === undefined || to.startBar <= from.startBar) return null;
  const between = barsBetween(source, from.startBar, to.startBar);
  const { ask, tell } = style.print.worksheet;
  const { functions } = style.words;
  return {
    ask: ask.beatsBetween(functions[from.function], functions.drop),
    answer: tell.length(between.length, beatsOf(between)),
  };
}

export function startNext(source: Source): Question | null {
  const { track, style } = source;
  const outro = firstSection(source, 'outro');
  const bars = track.phraseBars * INTRO_PHRASES;
  const overlap = outro === undefined ? [] : barsBetween(source, outro.startBar - bars, outro.startBar);
  const [start] = overlap;
  // With an odd bar in between, the bars of the two records would not fall together.
  const even = overlap.every((b) => b.beats === track.metre.beatsPerBar && b.number >= 1);
  if (overlap.length < bars || !even) return null;
  const { ask } = style.print.worksheet;
  return { ask: ask.startNext(bars, named(source, 'outro')), answer: place(source, start.number, start.start) };
}

export function faster(source: Source): Question | null {
  const { track, style } = source;
  const once = (['breakdown', 'build-up', 'intro'] as const).flatMap((value) => {
    const all = track.sections.filter((s) => s.function === value);
    return all.length === 1 && !isDoubtful(all[0].confidence) ? all : [];
  });
  const section = source.pick(once, 'faster');
  if (section === undefined || track.tempo.steadiness === 'free') return null;
  const bpm = Math.round(track.tempo.bpm) + FASTER;
  const beats = beatsOf(barsBetween(source, section.startBar, section.endBar + 1));
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.faster(`${bpm}`, named(source, section.function)),
    answer: tell.lasts(style.words.clock((beats * 60) / bpm)),
  };
}

/** Bars whose place in their phrase is sure, after the first group. */
function surePlaces({ track }: Source) {
  const sure = new Set(track.phrases.filter((p) => !isDoubtful(p.confidence)).map((p) => p.number));
  return track.bars.filter((b) => b.number > 4 && b.groupBar > 1 && b.phraseBar > 4 && sure.has(b.phrase));
}

export function countAt(source: Source): Question | null {
  const { track, style, pick } = source;
  const bar = pick(surePlaces(source), 'count');
  if (bar === undefined) return null;
  const group = track.bars.filter((b) => b.group === bar.group && b.phrase === bar.phrase);
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.countAt(bar.number),
    answer: tell.count(bar.groupBar, `${group[0].number}–${group.at(-1)!.number}`),
  };
}

/** Where in its phrase a track is at a time on the clock. */
export function clockAt(source: Source): Question | null {
  const { track, style, pick } = source;
  const shown = surePlaces(source).flatMap((bar) => {
    const end = track.bars.find((b) => b.number === bar.number + 1)?.start;
    const second = Math.round((bar.start + (end ?? 0)) / 2);
    return end !== undefined && second > bar.start + INSIDE && second < end - INSIDE ? [{ bar, second }] : [];
  });
  const chosen = pick(shown, 'clock');
  if (chosen === undefined) return null;
  const { bar, second } = chosen;
  const phrase = track.phrases.find((p) => p.number === bar.phrase)!;
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.clockAt(style.words.clock(second, 0)),
    answer: tell.inPhrase(bar.phraseBar, phrase.bars, bar.number),
  };
}
