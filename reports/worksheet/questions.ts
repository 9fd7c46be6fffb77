import { createHash } from 'node:crypto';
import { LAYERS, type Layer, type SectionFunction, type TrackAnalysis } from '../../src/index.js';
import { isDoubtful } from '../../src/ladder/index.js';
import type { Style } from '../theme/index.js';

/** 1: hear layers and sections; 2: phrases; 3: counting, planning ahead. @public */
export const LEVELS = [1, 2, 3] as const;
/** One of `LEVELS`. @public */
export type Level = (typeof LEVELS)[number];

export interface Question {
  readonly ask: string;
  readonly answer: string;
}

/** What a question is made from. */
interface Source {
  readonly track: TrackAnalysis;
  readonly style: Style;
  /** One of a list, always the same for the same track and variant. */
  readonly pick: <T>(list: readonly T[], what: string) => T | undefined;
}

type Maker = (source: Source) => Question | null;

/** The next record of a question has an intro of this many usual phrases. */
const INTRO_PHRASES = 1;
/** A list of ones longer than this is no question any more. */
const MOST_ONES = 24;
/** Presences that nobody argues about. */
const CLEAR = { heard: 0.6, not: 0.25 } as const;

const MAKERS: Readonly<Record<Level, readonly Maker[]>> = {
  1: [
    enters(['bass', 'voice', 'harmony']),
    sectionStart(['drop', 'breakdown']),
    heard,
    room('intro'),
    leaves,
    sectionStart(['outro', 'build-up', 'main']),
  ],
  2: [usualPhrase, oddPhrases, ones, phraseLength, room('outro'), enters(['voice', 'harmony', 'percussion'])],
  3: [breaks, beatsBetween, startNext, faster, countAt, ones],
};

/**
 * Questions about a track that its analysis is sure enough to answer, from easy to hard.
 * @param most at most so many @param variant other layers, phrases and bars for another sheet
 */
export function questionsAbout(
  track: TrackAnalysis,
  style: Style,
  level: Level,
  most: number,
  variant: number,
): readonly Question[] {
  const pick: Source['pick'] = (list, what) => {
    const text = `${track.source.audioDigest} ${level} ${variant} ${what}`;
    const hash = parseInt(createHash('sha256').update(text).digest('hex').slice(0, 8), 16);
    return list[hash % list.length];
  };
  const source = { track, style, pick };
  return MAKERS[level].flatMap((make) => make(source) ?? []).slice(0, most);
}

const place = ({ style }: Source, bar: number, time: number): string =>
  style.print.worksheet.tell.place(bar, style.words.clock(time));

function change(kind: 'enters' | 'leaves', layers: readonly Layer[], source: Source): Question | null {
  const { track, style, pick } = source;
  const { worksheet } = style.print;
  const firsts = layers.flatMap((layer) => {
    const first = track.events.find((e) => e.layer === layer && e.change === kind);
    return first === undefined || first.bar <= 1 || isDoubtful(first.confidence) ? [] : [first];
  });
  const event = pick(firsts, `${kind} ${layers.join(' ')}`);
  if (event === undefined) return null;
  const layer = worksheet.layer(event.layer, style.words.layers[event.layer]);
  return { ask: worksheet.ask.change(layer, kind), answer: place(source, event.bar, event.time) };
}

function enters(layers: readonly Layer[]): Maker {
  return (source) => change('enters', layers, source);
}
function leaves(source: Source): Question | null {
  return change('leaves', ['kick', 'bass', 'percussion', 'voice'], source);
}

const sureSections = ({ track }: Source) => track.sections.filter((s) => !isDoubtful(s.confidence));
const named = ({ style }: Source, value: SectionFunction): string =>
  style.print.worksheet.section(value, style.words.functions[value]);

function sectionStart(functions: readonly SectionFunction[]): Maker {
  return (source) => {
    const first = functions.flatMap((f) => sureSections(source).find((s) => s.function === f && s.startBar > 1) ?? []);
    const section = source.pick(first, `start ${functions.join(' ')}`);
    if (section === undefined) return null;
    const { ask } = source.style.print.worksheet;
    return {
      ask: ask.sectionStart(section.function, named(source, section.function)),
      answer: place(source, section.startBar, section.start),
    };
  };
}

function heard({ track, style, pick }: Source): Question | null {
  const clear = track.phrases.flatMap((phrase) => {
    const index = track.bars.findIndex((b) => b.number === phrase.startBar);
    const presences = LAYERS.map((layer) => ({ layer, value: track.layers[layer][index] ?? null }));
    const sure = presences.every(({ value }) => value !== null && (value >= CLEAR.heard || value <= CLEAR.not));
    const on = presences.filter(({ value }) => value !== null && value >= CLEAR.heard).map(({ layer }) => layer);
    return sure && on.length > 0 ? [{ bar: phrase.startBar, on }] : [];
  });
  const chosen =
    pick(
      clear.filter((c) => c.bar > 1),
      'heard',
    ) ?? clear[0];
  if (chosen === undefined) return null;
  const { ask } = style.print.worksheet;
  return { ask: ask.heard(chosen.bar), answer: style.words.list(chosen.on.map((l) => style.words.layers[l])) };
}

function room(which: 'intro' | 'outro'): Maker {
  return (source) => {
    const { track, style } = source;
    const section = which === 'intro' ? track.sections[0] : track.sections.at(-1);
    if (section === undefined || section.function !== which || isDoubtful(section.confidence)) return null;
    const bars = section.endBar - Math.max(section.startBar, 1) + 1;
    const seconds = which === 'intro' ? section.end - section.start : track.source.durationSeconds - section.start;
    const { ask, tell } = style.print.worksheet;
    return { ask: ask.room(which, named(source, which)), answer: tell.room(bars, style.words.clock(seconds, 0)) };
  };
}

function usualPhrase({ track, style }: Source): Question | null {
  if (track.phrases.length === 0) return null;
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.usualPhrase, answer: tell.length(track.phraseBars, track.phraseBars * track.metre.beatsPerBar) };
}

function phraseLength({ track, style, pick }: Source): Question | null {
  const sure = track.phrases.filter(
    (p) => !isDoubtful(p.confidence) && p.number > 1 && p.number < track.phrases.length,
  );
  const phrase = pick(sure, 'length');
  if (phrase === undefined) return null;
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.phraseLength(phrase.number),
    answer: tell.length(phrase.bars, phrase.bars * track.metre.beatsPerBar),
  };
}

/** Every phrase out of the pattern, in words. */
function oddOnes({ track, style }: Source): readonly string[] {
  const last = track.phrases.at(-1);
  return track.phrases
    .filter((p) => !p.regular)
    .map((p) => {
      const told = track.irregularities.find((i) => i.parameters.endBar === p.endBar && 'usualBars' in i.parameters);
      const usual = Number(told?.parameters.usualBars ?? track.phraseBars);
      return style.print.worksheet.tell.odd(p.number, p.bars, usual, p === last ? null : p.endBar + 1);
    });
}

function oddPhrases(source: Source): Question | null {
  const odd = oddOnes(source);
  if (odd.length !== 1) return breaks(source);
  return { ask: source.style.print.worksheet.ask.oddPhrase, answer: odd[0] };
}

function breaks(source: Source): Question | null {
  const { track, style } = source;
  if (track.phrases.length < 2 || track.phrases.some((p) => isDoubtful(p.confidence))) return null;
  const odd = oddOnes(source);
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.breaks, answer: odd.length === 0 ? tell.noOdd : odd.join('; ') };
}

function ones({ track, style }: Source): Question | null {
  const sure = track.phrases.every((p) => !isDoubtful(p.confidence));
  if (!sure || track.phrases.length < 2 || track.phrases.length > MOST_ONES) return null;
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.ones, answer: tell.ones(track.phrases.map((p) => p.startBar)) };
}

function beatsBetween(source: Source): Question | null {
  const { track, style } = source;
  const sections = sureSections(source);
  const from = sections.find((s) => s.function === 'breakdown' || s.function === 'build-up');
  const to = sections.find((s) => s.function === 'drop' && from !== undefined && s.startBar > from.startBar);
  if (from === undefined || to === undefined) return null;
  const between = track.bars.filter((b) => b.number >= from.startBar && b.number < to.startBar);
  const { ask, tell } = style.print.worksheet;
  const { functions } = style.words;
  const beats = between.reduce((sum, b) => sum + b.beats, 0);
  return {
    ask: ask.beatsBetween(functions[from.function], functions.drop),
    answer: tell.length(between.length, beats),
  };
}

function startNext(source: Source): Question | null {
  const { track, style } = source;
  const outro = sureSections(source).find((s) => s.function === 'outro');
  const bars = track.phraseBars * INTRO_PHRASES;
  const start = outro && track.bars.find((b) => b.number === outro.startBar - bars && b.number >= 1);
  if (start === undefined) return null;
  const { ask } = style.print.worksheet;
  return { ask: ask.startNext(bars, named(source, 'outro')), answer: place(source, start.number, start.start) };
}

function faster(source: Source): Question | null {
  const { track, style } = source;
  const section = source.pick(
    sureSections(source).filter(
      (s) => s.function === 'breakdown' || s.function === 'build-up' || s.function === 'intro',
    ),
    'faster',
  );
  if (section === undefined || track.tempo.steadiness === 'free') return null;
  const bpm = Math.round(track.tempo.bpm) + 2;
  const beats = track.bars
    .filter((b) => b.number >= section.startBar && b.number <= section.endBar)
    .reduce((sum, b) => sum + b.beats, 0);
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.faster(`${bpm}`, named(source, section.function)),
    answer: tell.lasts(style.words.clock((beats * 60) / bpm)),
  };
}

function countAt({ track, style, pick }: Source): Question | null {
  const inside = track.bars.filter((b) => b.number > 4 && b.groupBar > 1 && b.phraseBar > 4);
  const bar = pick(inside, 'count');
  if (bar === undefined) return null;
  const first = bar.number - bar.groupBar + 1;
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.countAt(bar.number), answer: tell.count(bar.groupBar, `${first}–${first + 3}`) };
}
