import type { TrackMatch, MatchPlan } from '../matching/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { BarwiseError, clock, type Lufs, type RunOptions, type Seconds } from '../units/index.js';
import type { Practice } from './count-along.js';
import { HEARING_CAUTION, type Marker } from './files/marker.js';
import { master } from './mix/master.js';
import { mix, type MixerChoice } from './mix/mix.js';
import { rehearse, type Contrast } from './rehearsal.js';
import { addAt, clickFor } from './sound/clicks.js';
import { shuffled } from './sound/chance.js';
import { RATE, readStretch, silence } from './sound/stereo.js';

/** The drills for the ear. @experimental */
export const DRILLS = ['the-one', 'ahead', 'phrase-matched'] as const;
/** One of `DRILLS`. @experimental */
export type DrillName = (typeof DRILLS)[number];

/** A question and its answer. @experimental */
export interface DrillItem {
  readonly number: number;
  /** Where it begins in the sound. */
  readonly time: Seconds;
  readonly question: string;
  readonly answer: string;
}

/** A drill: sound and answer sheet. @experimental */
export interface Drill extends Practice {
  readonly name: DrillName;
  readonly instruction: string;
  readonly items: readonly DrillItem[];
}

/** How a drill is made; the same seed asks the same questions. @experimental */
export interface DrillOptions extends RunOptions {
  /** The same seed asks the same questions; default 1. */
  readonly seed?: number;
  readonly loudness?: Lufs;
  readonly mixer?: MixerChoice;
}

const PAUSE: Seconds = 1.5;
const FADE: Seconds = 0.01;

/**
 * Say when the one comes: the track plays a group, falls silent for some bars, and returns on the one of a group. The
 * silences grow: 1, 2, 4, 4, 8, 8, 16 bars.
 * @experimental
 * @throws BarwiseError `bad-option` for a track that is too short for it
 */
export async function drillTheOne(analysis: TrackAnalysis, options: DrillOptions = {}): Promise<Drill> {
  const ones = analysis.bars.filter((bar) => bar.groupBar === 1 && bar.beats === analysis.metre.beatsPerBar);
  const range = await readStretch(analysis.source.file, 0, analysis.source.durationSeconds, options);
  const sound = { left: range.left.slice(), right: range.right.slice() };
  const items: DrillItem[] = [];
  let from = ones[Math.min(2, ones.length - 1)]?.number ?? Infinity;
  for (const silent of [1, 2, 4, 4, 8, 8, 16]) {
    // the track is back on a group one: the silence ends there
    const back = ones.find((bar) => bar.number >= from + 4 + silent);
    const gone = analysis.bars.find((bar) => back !== undefined && bar.number === back.number - silent);
    if (back === undefined || gone === undefined) break;
    mute(sound, gone.start, back.start);
    const question = `The track falls silent for ${silent} ${silent === 1 ? 'bar' : 'bars'}: say "one" when it comes back.`;
    const answer = `${clock(back.start, 2)}, bar ${back.number}, the one of a group`;
    items.push({ number: items.length + 1, time: gone.start, question, answer });
    from = back.number + 4;
  }
  if (items.length === 0)
    throw new BarwiseError('bad-option', 'The track is too short for this drill: choose a longer one.');
  const end = Math.min(sound.left.length, Math.round((items[items.length - 1].time + 60) * RATE));
  return finish('the-one', { left: sound.left.slice(0, end), right: sound.right.slice(0, end) }, items, options, {
    title: 'Drill: say when the one comes',
    instruction: 'Count along. Where the track falls silent, go on counting and say "one" where you expect it back.',
  });
}

/** Differences from plain to hard, in milliseconds: the last is near the least that is heard (Friberg & Sundberg, JASA 1995). */
const APART = [60, 45, 32, 24, 18, 14, 11, 8] as const;

/**
 * Which record is ahead: two clicks, one high and one low, so many milliseconds apart, from plain to hard.
 * @experimental
 */
export async function drillAhead(options: DrillOptions & { readonly bpm?: number } = {}): Promise<Drill> {
  const { seed = 1, bpm = 124 } = options;
  const beat = 60 / bpm;
  const BEATS = 12;
  const first = shuffled(
    APART.map((_, i) => i % 2 === 0),
    seed,
  );
  const frames = Math.ceil(APART.length * (BEATS * beat + PAUSE) * RATE);
  const sound = silence(frames);
  const [low, high] = [clickFor({ beat: 2, groupBar: 1 }), clickFor({ beat: 1, groupBar: 4 })];
  const items = APART.map((milliseconds, i): DrillItem => {
    const start = i * (BEATS * beat + PAUSE);
    const lead = first[i] ? 'high' : 'low';
    for (let k = 0; k < BEATS; k++) {
      const at = start + k * beat;
      addAt(sound, high, at + (first[i] ? 0 : milliseconds / 1000), 0.5);
      addAt(sound, low, at + (first[i] ? milliseconds / 1000 : 0), 1);
    }
    return {
      number: i + 1,
      time: start,
      question: 'Which click is ahead, the high one or the low one?',
      answer: `the ${lead} one, by ${milliseconds} ms`,
    };
  });
  return finish('ahead', sound, items, options, {
    title: 'Drill: which is ahead?',
    instruction:
      'Two clicks, a high one and a low one, play the same beat. Say which one is ahead and would have to be held back.',
  });
}

/** Is this phrase-matched: the same handover right, a bar off and a phrase off, in an order by chance. @experimental */
export async function drillPhraseMatched(
  pair: { readonly a: TrackAnalysis; readonly b: TrackAnalysis; readonly match: TrackMatch; readonly plan: MatchPlan },
  options: DrillOptions = {},
): Promise<Drill> {
  const { a, b, match, plan } = pair;
  const order = shuffled(['right', 'bar', 'phrase', 'right', 'bar', 'phrase'] as const, options.seed ?? 1);
  const says: Record<Exclude<Contrast, 'beat' | 'group'>, string> = {
    right: 'yes, phrase on phrase',
    bar: 'no, B comes a bar late',
    phrase: 'no, B comes a phrase late',
  };
  const made = new Map<string, Awaited<ReturnType<typeof rehearse>>>();
  for (const contrast of new Set(order)) {
    made.set(contrast, await rehearse(a, b, match, plan, { around: 4, ...options, contrast }));
  }
  const parts = order.map((contrast) => {
    const { sound, clock: times } = made.get(contrast)!;
    // the change-over and what surrounds it: four phrases would be heard too long
    const bar = a.metre.beatsPerBar * times.beat;
    const middle = times.swap;
    const [from, to] = [Math.max(0, middle - 8 * bar), Math.min(times.length, middle + 16 * bar)];
    const cut = (x: Float32Array) => x.slice(Math.round(from * RATE), Math.round(to * RATE));
    return { contrast, left: cut(sound.left), right: cut(sound.right) };
  });
  const gap = Math.round(PAUSE * RATE);
  const sound = silence(parts.reduce((sum, p) => sum + p.left.length + gap, 0));
  let at = 0;
  const items = parts.map((part, i): DrillItem => {
    sound.left.set(part.left, at);
    sound.right.set(part.right, at);
    fadeEdges(sound, at, at + part.left.length);
    const time = at / RATE;
    at += part.left.length + gap;
    return { number: i + 1, time, question: 'Is this phrase-matched?', answer: says[part.contrast] };
  });
  return finish('phrase-matched', sound, items, options, {
    title: 'Drill: is this phrase-matched?',
    instruction:
      'You hear the middle of a handover six times. Say each time whether the phrases of both records begin together.',
  });
}

async function finish(
  name: DrillName,
  sound: { left: Float32Array; right: Float32Array },
  items: readonly DrillItem[],
  options: DrillOptions,
  texts: { readonly title: string; readonly instruction: string },
): Promise<Drill> {
  const mixed = await mix([{ sound, whole: [{ time: 0, level: 1 }] }], sound.left.length, options.mixer);
  const level = master(mixed.sound, options.loudness);
  const markers: Marker[] = items.map(({ number, time }) => ({ time, label: `question ${number}` }));
  const comment = `${texts.instruction} ${HEARING_CAUTION}`;
  return {
    name,
    instruction: texts.instruction,
    items,
    sound: { ...mixed.sound, title: texts.title, comment, markers },
    level,
    notices: mixed.notice === null ? [] : [mixed.notice],
  };
}

function mute(sound: { left: Float32Array; right: Float32Array }, from: Seconds, to: Seconds): void {
  const [start, end] = [Math.round(from * RATE), Math.round(to * RATE)];
  sound.left.fill(0, start, end);
  sound.right.fill(0, start, end);
  fadeEdges(sound, 0, start);
}

/** Softens where a stretch begins and ends, so that it does not click. */
function fadeEdges(sound: { left: Float32Array; right: Float32Array }, from: number, to: number): void {
  const length = Math.min(Math.round(FADE * RATE), Math.floor((to - from) / 2));
  for (let i = 0; i < length; i++) {
    const level = i / length;
    for (const samples of [sound.left, sound.right]) {
      if (from > 0) samples[from + i] *= level;
      samples[to - 1 - i] *= level;
    }
  }
}
