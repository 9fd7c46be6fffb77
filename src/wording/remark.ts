import type { BarNumber, IrregularityKind } from '../units/index.js';
import { wordsOf, type Speech } from './languages.js';

/** An irregularity as it is stored. */
export interface StoredIrregularity {
  readonly kind: IrregularityKind;
  readonly bar: BarNumber;
  readonly parameters: Readonly<Record<string, number | string>>;
}

/**
 * An irregularity in the few words that a rung has room for; `null` where it needs none.
 * @param last no bar follows it @param barBeats beats of its bar, null where the bar is not known
 */
export function remark(
  irregularity: StoredIrregularity,
  { last, barBeats }: { readonly last: boolean; readonly barBeats: number | null },
  language: Speech = 'en',
): string | null {
  const say = wordsOf(language).remarks;
  const { bar, parameters } = irregularity;
  const value = (name: string): number | null => {
    const found = parameters[name];
    return typeof found === 'number' && Number.isFinite(found) ? found : null;
  };
  const endBar = value('endBar');
  const next = last || endBar === null ? null : endBar + 1;
  switch (irregularity.kind) {
    case 'added-bars':
    case 'dropped-bars':
    case 'odd-phrase': {
      const [length, usual] = [value('bars'), value('usualBars')];
      if (length === null || usual === null || length === usual) return null;
      return length > usual ? say.over(length - usual, next) : say.short(usual - length, next);
    }
    case 'added-beats':
      return barBeats === null ? say.barAdded(bar) : say.barBeats(bar, barBeats);
    case 'dropped-beats':
      return barBeats === null ? say.barDropped(bar) : say.barBeats(bar, barBeats);
    case 'pick-up':
      return say.pickUp(value('beats'), bar);
    case 'beatless-passage':
      return say.beatless(bar, endBar === null ? null : endBar + 1);
    case 'tempo-change':
      return say.newTempo(value('toBpm'), bar);
    case 'half-time':
      return say.halfTime(bar, endBar);
    case 'drift':
      return null;
  }
}
