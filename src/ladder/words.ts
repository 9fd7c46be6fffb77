import type { AnalysisIrregularity } from '../track/index.js';
import { clock, type Layer, type SectionFunction } from '../units/index.js';
import { changeWords, wordsOf } from '../wording/index.js';
import type { RungChange } from './geometry.js';
import { parameter } from './pattern.js';

/** The words that stand on a ladder. Another language or a teacher's own words replace them as a whole or in part. */
export interface LadderWords {
  readonly layer: (layer: Layer) => string;
  readonly letter: (layer: Layer) => string;
  readonly function: (value: SectionFunction) => string;
  readonly bar: (bar: number, doubtful: boolean) => string;
  readonly dropLands: string;
  readonly change: (change: RungChange, atStart: boolean) => string;
  /**
   * A remark of a few words, or null where the rung needs none. `last` tells that no bar follows; `barBeats` is the
   * number of beats in the irregularity's bar.
   */
  readonly irregularity: (irregularity: AnalysisIrregularity, last: boolean, barBeats: number | null) => string | null;
  /** For an irregular phrase that no irregularity speaks of. */
  readonly oddPhrase: (bars: number) => string;
}

const LETTERS: Record<Layer, string> = { kick: 'K', bass: 'B', percussion: 'P', harmony: 'H', voice: 'V' };
const bars = (n: number) => `${n} ${n === 1 ? 'bar' : 'bars'}`;
const beats = (n: number) => `${n} ${n === 1 ? 'beat' : 'beats'}`;

const EN = wordsOf('en');

/** English. */
export const ENGLISH: LadderWords = {
  layer: (layer) => EN.layers[layer],
  letter: (layer) => LETTERS[layer],
  function: (value) => EN.functions[value],
  bar: (bar, doubtful) => `bar ${bar}${doubtful ? '?' : ''}`,
  dropLands: EN.dropLands,
  change(change, atStart) {
    const said = changeWords(change.layers.map((layer) => ({ layer, change: change.change }))).join(', ');
    const beat = change.beat > 1 ? `, beat ${change.beat}` : '';
    return `${atStart && beat === '' ? '' : `bar ${change.bar}${beat}: `}${said}${change.doubtful ? '?' : ''}`;
  },
  irregularity(irregularity, last, barBeats) {
    const value = (name: string) => parameter(irregularity, name);
    const [length, usual, endBar, count] = [value('bars'), value('usualBars'), value('endBar'), value('beats')];
    const again = last || endBar === null ? '' : `: count again from bar ${endBar + 1}`;
    switch (irregularity.kind) {
      case 'added-bars':
      case 'dropped-bars':
      case 'odd-phrase': {
        if (length === null || usual === null || length === usual) return null;
        return `${bars(Math.abs(length - usual))} ${length > usual ? 'over' : 'short'}${again}`;
      }
      case 'added-beats':
      case 'dropped-beats':
        return `bar ${irregularity.bar} has ${barBeats === null ? irregularity.kind.replace('-', ' ') : beats(barBeats)}`;
      case 'pick-up':
        return `pick-up${count === null ? '' : ` of ${beats(count)}`} into bar ${irregularity.bar}`;
      case 'beatless-passage':
        return endBar === null ? `no beat from bar ${irregularity.bar}` : `no beat until bar ${endBar + 1}`;
      case 'tempo-change': {
        const to = value('toBpm');
        return `${to === null ? 'new tempo' : `${to.toFixed(1)} BPM`} from bar ${irregularity.bar}`;
      }
      case 'half-time':
        return `half-time feel ${endBar === null ? 'from' : 'in'} bars ${irregularity.bar}${endBar === null ? '' : `–${endBar}`}`;
      case 'drift':
        return null;
    }
  },
  oddPhrase: (length) => `phrase of ${bars(length)}`,
};

/** Time beside a rung. */
export const rungTime = (time: number, decimals: number): string => clock(time, decimals);
