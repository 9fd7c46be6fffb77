import type { AnalysisIrregularity } from '../track/index.js';
import type { Layer, Seconds, SectionFunction } from '../units/index.js';
import { changeWords, remark, wordsOf, type Speech, type RemarkWords } from '../wording/index.js';
import type { RungChange } from './geometry.js';

/** The words that stand on a ladder. Another language or a teacher's own words replace them as a whole or in part. */
export interface LadderWords extends Pick<
  RemarkWords,
  'bar' | 'oddPhrase' | 'notJudged' | 'noBars' | 'opening' | 'rung' | 'goesOn'
> {
  readonly layer: (layer: Layer) => string;
  readonly letter: (layer: Layer) => string;
  readonly function: (value: SectionFunction) => string;
  /** A clock time as on a player. */
  readonly time: (time: Seconds, decimals: number) => string;
  readonly dropLands: string;
  readonly change: (change: RungChange, atStart: boolean) => string;
  /**
   * A remark of a few words, or null where the rung needs none. `last` tells that no bar follows; `barBeats` is the
   * number of beats in the irregularity's bar.
   */
  readonly irregularity: (irregularity: AnalysisIrregularity, last: boolean, barBeats: number | null) => string | null;
}

/** The words of a ladder in a language, or in a table of words of one's own. */
export function ladderWords(speech: Speech = 'en'): LadderWords {
  const words = wordsOf(speech);
  return {
    ...words.remarks,
    layer: (layer) => words.layers[layer],
    letter: (layer) => words.letters[layer],
    function: (value) => words.functions[value],
    time: (time, decimals) => words.clock(time, decimals),
    dropLands: words.dropLands,
    change(change, atStart) {
      const layers = change.layers.map((layer) => ({ layer, change: change.change }));
      const said = changeWords(layers, words).join(', ') + (change.doubtful ? '?' : '');
      return atStart && change.beat === 1 ? said : words.remarks.at(change.bar, change.beat, said);
    },
    irregularity: (irregularity, last, barBeats) => remark(irregularity, { last, barBeats }, words),
  };
}

/** English. */
export const ENGLISH: LadderWords = ladderWords('en');
