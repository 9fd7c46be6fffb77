import type { Correction } from '../../track/index.js';
import { median, SECTION_FUNCTIONS, toStoredTime, type Bpm, type Seconds } from '../../units/index.js';
import type { ForeignCount } from './count.js';

/** What can be taken over from a foreign count. @experimental */
export const TAKEABLE = ['tempo', 'metre', 'first-one', 'beats', 'bars', 'phrases', 'sections'] as const;
/** One of `TAKEABLE`. @experimental */
export type Takeable = (typeof TAKEABLE)[number];

/** Something of a foreign count that makes no correction, or not as it stands there. @experimental */
export type NotTaken =
  /** The file does not say it. */
  | { readonly kind: 'not-stated'; readonly what: Takeable }
  /** Its stated tempo is another reading than its beats have; the beats are followed. */
  | { readonly kind: 'tempo-beside-beats'; readonly stated: Bpm; readonly beats: Bpm }
  /** No tempo or metre that can be counted. */
  | { readonly kind: 'out-of-range'; readonly what: 'tempo' | 'metre'; readonly value: number }
  /** Sections whose labels name no function: their places are taken. */
  | { readonly kind: 'label'; readonly labels: readonly string[] }
  /** Sections and phrases before its own first beat or after its last. */
  | { readonly kind: 'outside'; readonly what: 'sections' | 'phrases'; readonly count: number };

/** What a foreign count comes to. @experimental */
export interface ForeignCorrections {
  readonly corrections: readonly Correction[];
  readonly notTaken: readonly NotTaken[];
}

/** Fewer beats than this make no tempo. */
const FEWEST_BEATS = 8;
/** Two tempos within this share of each other are one reading, as corrections take it. */
const SAME_TEMPO = 0.04;
/** Two times nearer than this mean the same one (s). */
const SAME_ONE: Seconds = 0.15;

/**
 * The corrections that say what a foreign count says, as few as will do. Beats come down to their tempo and one of
 * them; downbeats to where regular bars begin and begin again, because bars in between follow; sections keep their
 * function where their label is one of `SECTION_FUNCTIONS`, else only their place.
 *
 * @experimental
 * @param wanted what is to be taken over; by default all that the file states
 */
export function correctionsOfCount(count: ForeignCount, wanted: readonly Takeable[] = TAKEABLE): ForeignCorrections {
  const notTaken: NotTaken[] = [];
  const corrections: Correction[] = [];
  const want = (what: Takeable, stated: boolean) => {
    if (!wanted.includes(what)) return false;
    if (!stated) notTaken.push({ kind: 'not-stated', what });
    return stated;
  };
  const { beats, beatsPerBar, firstOne } = count;
  const enough = beats.length >= FEWEST_BEATS;
  if (want('tempo', enough || count.bpm !== null)) corrections.push(...tempo(count, enough, notTaken));
  if (want('metre', beatsPerBar !== null)) {
    if (beatsPerBar! >= 2 && beatsPerBar! <= 16) corrections.push({ kind: 'metre', beatsPerBar: beatsPerBar! });
    else notTaken.push({ kind: 'out-of-range', what: 'metre', value: beatsPerBar! });
  }
  const first = want('first-one', firstOne !== null) ? firstOne : null;
  if (first !== null) corrections.push({ kind: 'first-one', time: first });
  const bars = want('bars', count.downbeats.length > 1) ? barsToSay(count, first) : [];
  // The first one fixes the beat as well; else one of the beats does, a downbeat rather than another.
  if (want('beats', enough) && first === null)
    corrections.push({ kind: 'beat', time: bars[0] ?? beats[Math.floor(beats.length / 2)] });
  for (const time of bars) corrections.push({ kind: 'bar', time });

  const [from, to] = beats.length > 0 ? [beats[0] - SAME_ONE, beats[beats.length - 1] + SAME_ONE] : [0, Infinity];
  const inside = (time: Seconds) => time >= from && time <= to;
  const sections = want('sections', count.sections.length > 0) ? count.sections.filter((s) => inside(s.time)) : [];
  const phrases = want('phrases', count.phrases.length > 0) ? count.phrases.filter(inside) : [];
  if (wanted.includes('sections')) outside('sections', count.sections.length - sections.length, notTaken);
  if (wanted.includes('phrases')) outside('phrases', count.phrases.length - phrases.length, notTaken);
  const starts = sections.map((s) => s.time);
  for (const time of phrases)
    if (!starts.some((t) => near(t, time)) && !(first !== null && near(first, time)))
      corrections.push({ kind: 'phrase', time, starts: true });
  corrections.push(...named(sections, notTaken));
  return { corrections, notTaken };
}

function tempo({ beats, bpm: stated }: ForeignCount, enough: boolean, notTaken: NotTaken[]): Correction[] {
  const ofBeats = enough ? Math.round((60 / median(steps(beats))) * 100) / 100 : null;
  if (stated !== null && ofBeats !== null && Math.abs(stated / ofBeats - 1) > SAME_TEMPO)
    notTaken.push({ kind: 'tempo-beside-beats', stated, beats: ofBeats });
  const bpm = ofBeats ?? stated!;
  if (bpm >= 20 && bpm <= 400) return [{ kind: 'tempo', bpm }];
  notTaken.push({ kind: 'out-of-range', what: 'tempo', value: bpm });
  return [];
}

/**
 * Where bars of the usual length begin again after one of another length, and before that one bar from the midst of the
 * first run of them: at its start the music may not have begun yet. The first one says as much of a run that it begins.
 */
function barsToSay({ beats, downbeats, beatsPerBar }: ForeignCount, firstOne: Seconds | null): Seconds[] {
  const usual = beatsPerBar ?? 4;
  const inside = (start: Seconds, end: Seconds) => beats.filter((t) => t >= start - 1e-3 && t < end - 1e-3).length;
  const regular = downbeats.slice(1).map((end, i) => inside(downbeats[i], end) === usual);
  const starts = downbeats.flatMap((_, i) => (regular[i] && !regular[i - 1] ? [i] : []));
  const [first, ...again] = starts;
  if (first === undefined) return [];
  const length = [...regular.slice(first), false].indexOf(false);
  const said = firstOne !== null && near(downbeats[first], firstOne);
  return [...(said ? [] : [first + (length >> 1)]), ...again].map((i) => downbeats[i]);
}

function named(sections: ForeignCount['sections'], notTaken: NotTaken[]): Correction[] {
  const unknown = new Set<string>();
  const corrections = sections.map(({ time, label }): Correction => {
    const name = label
      .trim()
      .toLowerCase()
      .replace(/[\s_]+/g, '-');
    const found = SECTION_FUNCTIONS.find((f) => f === name || f.replace('-', '') === name) ?? null;
    if (found === null) unknown.add(label);
    return { kind: 'section', time: toStoredTime(time), starts: true, function: found };
  });
  if (unknown.size > 0) notTaken.push({ kind: 'label', labels: [...unknown] });
  return corrections;
}

function outside(what: 'sections' | 'phrases', count: number, notTaken: NotTaken[]): void {
  const stated = !notTaken.some((n) => n.kind === 'not-stated' && n.what === what);
  if (count > 0 && stated) notTaken.push({ kind: 'outside', what, count });
}

function steps(times: readonly Seconds[]): Seconds[] {
  return times.slice(1).map((t, i) => t - times[i]);
}

function near(a: Seconds, b: Seconds): boolean {
  return Math.abs(a - b) < SAME_ONE;
}
