import type { Change, Layer, Mode, PitchClass, Seconds, SectionFunction } from '../units/index.js';
import type { CardWords } from './card-words.js';
import type { IrregularitySentences } from './sentences.js';
import type { RemarkWords } from './remark-words.js';
import type { StoryWords } from './story-words.js';

/** One language: its words and the makers of its sentences. A second language is a second table of this type. */
export interface Words {
  /** The language in its own words, and its tag (BCP 47). */
  readonly name: string;
  readonly tag: string;
  readonly layers: Readonly<Record<Layer, string>>;
  /** One letter a layer, for strips too small for a word; no two alike. */
  readonly letters: Readonly<Record<Layer, string>>;
  readonly functions: Readonly<Record<SectionFunction, string>>;
  readonly changes: Readonly<Record<Change, string>>;
  /** Kick and percussion together. */
  readonly drums: string;
  readonly everything: string;
  readonly dropLands: string;
  readonly doubt: { readonly sure: string; readonly fairly: string; readonly not: string; readonly unknown: string };
  /** "1 bar", "2 bars". */
  bars(n: number): string;
  beats(n: number): string;
  /** A clock time as on a player: "1:12.3". @param decimals of the seconds, 1 by default */
  clock(time: Seconds, decimals?: number): string;
  /** A number with so many decimals at most; with `fixed`, exactly so many. */
  number(value: number, decimals: number, fixed?: 'fixed'): string;
  percent(share: number): string;
  key(tonic: PitchClass, mode: Mode): string;
  /** Two readings and a question. */
  either(first: string, second: string): string;
  /** A layer and what it does: "bass in". */
  change(layer: string, change: string): string;
  list(items: readonly string[]): string;
  /** Whole sentences, for text. */
  readonly irregularity: IrregularitySentences;
  /** A few words, for the ladder. */
  readonly remarks: RemarkWords;
  /** Everything else on a printed card. */
  readonly card: CardWords;
  /** The track told in running text. */
  readonly story: StoryWords;
}
