import { FRONT_END_ID } from '../../../src/signal/index.js';
import type { Examples } from '../train-examples.js';
import { crossValidate, foldFits, temperaturesOf, together, weightsOf, type ChoiceName } from '../train-folds.js';
import type { FoldWeights } from './weights.js';

/** What is held out together: songs by one maker, or of one source. */
export type Fold = 'maker' | 'source';

/** Weights of level, phase and downbeat for songs of a fold, fitted without it and without the locked makers. */
export function gridFolds(songs: Examples, others: Examples, by: Fold): (fold: string) => FoldWeights {
  const fits = foldFits(songs, others, by);
  const held = crossValidate(songs, fits, by);
  return (fold) => {
    // The temperature comes from the held-out scores of all other folds.
    const temperatures = temperaturesOf(together([...held].filter(([name]) => name !== fold).map(([, h]) => h)));
    const of = (name: ChoiceName) =>
      weightsOf(name, fits(fold), temperatures, {
        id: `${name} without ${fold}`,
        frontEndId: FRONT_END_ID,
        origin: '',
        cues: [],
      });
    return { level: of('level'), phase: of('phase'), downbeat: of('downbeat') };
  };
}
