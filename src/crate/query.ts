import {
  circlePlace,
  type Bpm,
  type Mode,
  type PitchClass,
  type Seconds,
  type SectionFunction,
} from '../units/index.js';
import type { TrackOutline } from './outline.js';

/** By what a list of tracks can be ordered. @public */
export const CRATE_ORDERS = ['name', 'tempo', 'key', 'length', 'phrases', 'loudness'] as const;
/** One of `CRATE_ORDERS`. @public */
export type CrateOrder = (typeof CRATE_ORDERS)[number];

/** What to keep of a list of tracks, and in which order; whatever is left out does not matter. @public */
export interface CrateQuery {
  /** Beats a minute, both ends included. */
  readonly tempo?: readonly [Bpm, Bpm];
  readonly key?: { readonly tonic: PitchClass; readonly mode: Mode };
  /** Seconds, both ends included. */
  readonly length?: readonly [Seconds, Seconds];
  /** `regular`: without a single irregularity; `odd`: with one or more. */
  readonly phrases?: 'regular' | 'odd';
  /** Section functions that must come in this order; others may come between. */
  readonly sections?: readonly SectionFunction[];
  /** Default: the order in which the tracks come. */
  readonly order?: CrateOrder;
  readonly descending?: boolean;
}

/**
 * The tracks that fit, in order. Keys go round the circle of fifths, a minor key beside its relative major; `phrases`
 * puts the most regular first; what has no key or no loudness comes last.
 * @public
 */
export function queryCrate<T extends TrackOutline>(tracks: readonly T[], query: CrateQuery): T[] {
  const kept = tracks.filter((track) => fits(track, query));
  if (!query.order) return query.descending ? kept.reverse() : kept;
  const sign = query.descending ? -1 : 1;
  if (query.order === 'name') return kept.sort((a, b) => sign * byName(a, b));
  const valueOf = VALUE[query.order];
  const valued = kept.map((track) => ({ track, value: valueOf(track) }));
  valued.sort((a, b) => comparing(a.value, b.value, sign) || byName(a.track, b.track));
  return valued.map(({ track }) => track);
}

/** Whatever the direction, what has no value comes last. */
function comparing(a: number | null, b: number | null, sign: number): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return sign * (a - b);
}

/** The share of a track's bars that lie in regular phrases, 0 to 1; 0 without phrases. @public */
export function phraseRegularity({ phrases }: Pick<TrackOutline, 'phrases'>): number {
  const bars = (list: TrackOutline['phrases']) => list.reduce((sum, p) => sum + p.bars, 0);
  return bars(phrases.filter((p) => p.regular)) / Math.max(bars(phrases), 1);
}

/** The name a track is called by: its title, or its file's name. @public */
export function trackName({ source }: Pick<TrackOutline, 'source'>): string {
  const title = source.tags.title?.trim();
  if (title) return title;
  return source.file.slice(Math.max(source.file.lastIndexOf('/'), source.file.lastIndexOf('\\')) + 1);
}

function fits(track: TrackOutline, query: CrateQuery): boolean {
  const { tempo, key, length, phrases, sections } = query;
  if (tempo && !within(track.tempo.bpm, tempo)) return false;
  if (key && (track.key.tonic !== key.tonic || track.key.mode !== key.mode)) return false;
  if (length && !within(track.source.durationSeconds, length)) return false;
  if (phrases && (track.irregularities.length === 0) !== (phrases === 'regular')) return false;
  return !sections || comesInOrder(track, sections);
}

function within(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low && value <= high;
}

function comesInOrder({ sections }: TrackOutline, wanted: readonly SectionFunction[]): boolean {
  let met = 0;
  for (const section of sections) if (section.function === wanted[met]) met++;
  return met >= wanted.length;
}

const keys = new WeakMap<TrackOutline, string>();

function byName(a: TrackOutline, b: TrackOutline): number {
  const [first, second] = [keyOf(a), keyOf(b)];
  return first < second ? -1 : first > second ? 1 : 0;
}

/**
 * What a name is sorted by: without case and accents, numbers by value. Comparing such keys is twenty times as fast as
 * asking the language's collator about every pair, which ten thousand names would make us wait for.
 */
function keyOf(track: TrackOutline): string {
  const known = keys.get(track);
  if (known !== undefined) return known;
  const name = trackName(track);
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase();
  const key = `${plain.replace(/\d+/g, (digits) => digits.padStart(12, '0'))}\u0000${name}`;
  keys.set(track, key);
  return key;
}

const VALUE: Record<Exclude<CrateOrder, 'name'>, (track: TrackOutline) => number | null> = {
  tempo: ({ tempo }) => tempo.bpm,
  length: ({ source }) => source.durationSeconds,
  key: onCircle,
  // The most regular first; among equals, the fewest irregularities.
  phrases: (track) => 1 - phraseRegularity(track) + track.irregularities.length / 1e6,
  loudness: ({ loudness }) => loudness.integratedLufs,
};

/** Place on the circle of fifths, C major first; a minor key stands right after its relative major. */
function onCircle({ key: { tonic, mode } }: TrackOutline): number | null {
  if (tonic === null || mode === null) return null;
  return circlePlace({ tonic, mode }) * 2 + (mode === 'minor' ? 1 : 0);
}
