import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { makerOf, songIds } from '../song-front-ends.js';
import { arrangementExamples, joined, plainExamples, playedExamples, songExamples } from '../train-examples.js';
import { formFolds } from './form-folds.js';
import { gridFolds, type Fold } from './grid-folds.js';
import { keptFit } from './kept.js';
import { UNCALIBRATED, type FoldWeights } from './weights.js';

export interface FoldOptions {
  /** Drawn arrangements to fit the grid on. */
  readonly arrangements: number;
  /** Arrangements of each kind to fit the form on; null for the grid alone. */
  readonly formArrangements: number | null;
  readonly say: (what: string) => void;
}

/** What is fitted on where nothing else is asked for. */
export const FOLD_ARRANGEMENTS = { arrangements: 40, formArrangements: 90 } as const;

const KINDS: readonly Fold[] = ['maker', 'source'];

/** The weights for each song and kind of fold, fitted anew only when something they rest on has changed. */
export function foldWeights(folder: string, options: FoldOptions): (by: Fold, id: string) => FoldWeights {
  const ids = songIds(folder);
  const truth = ids.map((id) => readFileSync(join(folder, 'truth', `${id}.json`), 'utf8'));
  const fitted = (
    name: string,
    entry: readonly string[],
    count: number,
    fit: () => (by: Fold, fold: string) => FoldWeights,
  ) =>
    keptFit(
      join(folder, 'folds'),
      name,
      entry.map((file) => join(import.meta.dirname, file)),
      [truth, count, piecesOf(join(folder, name === 'grid' ? 'played' : 'planned'))],
      () => {
        options.say(`Fitting the folds of the ${name}.`);
        const weights = fit();
        const of = (by: Fold) => ids.map((id) => makerOf(id)[by]).map((fold) => [fold, weights(by, fold)] as const);
        return Object.fromEntries(KINDS.map((by) => [by, Object.fromEntries(of(by))]));
      },
    );
  const grid = fitted('grid', ['grid-folds.ts', '../train-examples.ts'], options.arrangements, () =>
    gridWeights(folder, options),
  );
  const count = options.formArrangements;
  const form =
    count === null ? null : fitted('form', ['form-folds.ts'], count, () => formFolds(folder, frontEnds(folder), count));
  return (by, id) => {
    const fold = makerOf(id)[by];
    return { ...grid[by][fold], ...form?.[by][fold], calibrations: UNCALIBRATED };
  };
}

function gridWeights(folder: string, { arrangements }: FoldOptions): (by: Fold, fold: string) => FoldWeights {
  const songs = songExamples(folder, frontEnds(folder));
  const drawn = arrangementExamples(arrangements, frontEnds(folder));
  const others = joined([drawn, plainExamples(), playedExamples(playedIn(folder))]);
  const kinds = { maker: gridFolds(songs, others, 'maker'), source: gridFolds(songs, others, 'source') };
  return (by, fold) => kinds[by](fold);
}

/** Names of the pieces in a folder; none where there is no such folder. */
function piecesOf(folder: string): string[] {
  const truth = join(folder, 'truth');
  return existsSync(truth) ? readdirSync(truth).sort() : [];
}

function playedIn(folder: string): string {
  return join(folder, 'played');
}

function frontEnds(folder: string): string {
  return join(folder, 'front-ends');
}
