import type { LogitWeights } from '../../../src/learned/index.js';
import { FRONT_END_ID } from '../../../src/signal/index.js';
import type { Example, Examples } from '../train-examples.js';
import { crossValidate, fitExamples, isLocked, temperatureOf, type ChoiceName, type Held } from '../train-folds.js';
import type { FoldWeights } from './weights.js';

/** What is held out together: songs by one maker, or of one source. */
export type Fold = 'maker' | 'source';

/** Weights of beat and downbeat for songs of a fold, fitted without it and without the locked makers. */
export function gridFolds(songs: Examples, arranged: Examples, by: Fold): (fold: string) => FoldWeights {
  const beat = folds('beat', songs.beat, arranged.beat, by);
  const downbeat = folds('downbeat', songs.downbeat, arranged.downbeat, by);
  return (fold) => ({ beat: beat(fold), downbeat: downbeat(fold) });
}

function folds(name: ChoiceName, songs: readonly Example[], arranged: readonly Example[], by: Fold) {
  const open = [...songs.filter((e) => !isLocked(e.maker)), ...arranged];
  const held = crossValidate(open, name, by);
  const cache = new Map<string, LogitWeights>();
  const fit = (fold: string): LogitWeights => ({
    id: `${name} without ${fold}`,
    frontEndId: FRONT_END_ID,
    origin: '',
    cues: [],
    temperature: temperatureWithout(held, by, fold),
    ...fitExamples(
      open.filter((e) => e[by] !== fold),
      name,
    ),
  });
  return (fold: string): LogitWeights => {
    const weights = cache.get(fold) ?? fit(fold);
    cache.set(fold, weights);
    return weights;
  };
}

/** The temperature comes from the held-out scores of all other folds. */
function temperatureWithout(held: readonly Held[], by: Fold, fold: string): number {
  return temperatureOf(held.filter((h) => h.example[by] !== fold));
}
