import type { SectionFunction, TrackAnalysis } from '../../src/index.js';
import { isDoubtful } from '../../src/ladder/index.js';
import type { Style } from '../theme/index.js';

export interface Question {
  readonly ask: string;
  readonly answer: string;
}

/** What a question is made from. */
export interface Source {
  readonly track: TrackAnalysis;
  readonly style: Style;
  /** One of a list, always the same for the same track and variant. */
  readonly pick: <T>(list: readonly T[], what: string) => T | undefined;
}

/** Makes a question of a track, or none where the track gives no sure answer. */
export type Maker = (source: Source) => Question | null;

type Section = TrackAnalysis['sections'][number];
type Bar = TrackAnalysis['bars'][number];

/** Bar and time as an answer. */
export const place = ({ style }: Source, bar: number, time: number): string =>
  style.print.worksheet.tell.place(bar, style.words.clock(time));

/** The section of a function that one hears first, where it is sure. */
export function firstSection({ track }: Source, value: SectionFunction): Section | undefined {
  const first = track.sections.find((s) => s.function === value);
  return first === undefined || isDoubtful(first.confidence) ? undefined : first;
}

/** A section's name with its article. */
export const named = ({ style }: Source, value: SectionFunction): string =>
  style.print.worksheet.section(value, style.words.functions[value]);

/** The bars from one up to another, which is left out. */
export const barsBetween = ({ track }: Source, from: number, to: number): readonly Bar[] =>
  track.bars.filter((b) => b.number >= from && b.number < to);

/** Beats of bars one after the other, odd ones as they are. */
export const beatsOf = (bars: readonly Bar[]): number => bars.reduce((sum, b) => sum + b.beats, 0);
