import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LAYERS, type Layer } from '../../../src/units/index.js';
import { cachedFrontEnd, makerOf, pieceIds, readTruth, songIds, type SongTruth } from '../../corpus/song-front-ends.js';
import { LAYER_ROLES } from '../../corpus/styled-layers.js';
import { isLocked } from '../../corpus/train-folds.js';
import { gridFromTruth } from '../../support/truth-grid.js';
import { playedStruckExamples, struckPlaces } from './struck.js';
import { heard, skipBars, type LearningTrack } from './tracks.js';

/** Roles of tracks that may hide a layer. */
const HIDING_ROLES: Readonly<Record<Layer, readonly string[]>> = {
  kick: ['drums'],
  bass: [],
  percussion: ['kick'],
  harmony: ['other'],
  voice: [],
};

/** Roles that drive a beat. */
const DRIVING_ROLES: readonly string[] = ['kick', 'snare', 'hats', 'drums', 'bass'];

interface Structure extends SongTruth {
  readonly sections?: readonly { readonly bar: number }[];
  readonly instrumentation?: readonly { readonly role: string; readonly bars: string }[];
}

/** Development songs but those of the locked makers, each whole and with its first few bars left out. */
export function* songTracks(corpus: string, cache: string): Generator<LearningTrack> {
  for (const id of songIds(corpus)) {
    const { maker } = makerOf(id);
    if (!isLocked(maker))
      for (const skip of [0, 1 + (id.length % 7)]) yield* written('song', corpus, id, cache, maker, skip);
  }
}

/**
 * Pieces of CORPUS/styled, made by tests/corpus/build/styled.py, half of them with their first few bars left out; none
 * where there is no such folder. The styles that the played pieces keep back are left out.
 */
export function* styledTracks(corpus: string): Generator<LearningTrack> {
  const folder = join(corpus, 'styled');
  if (!existsSync(join(folder, 'truth'))) return;
  for (const [i, id] of pieceIds(folder).entries()) {
    const { style } = readTruth(folder, id) as SongTruth & { readonly style: string };
    const skip = i % 2 === 0 ? 0 : 1 + ((i >> 1) % 7);
    if (!isLocked(`played-${style}`))
      yield* written('styled', folder, id, join(folder, 'front-ends'), `styled-${style}`, skip);
  }
}

/** A piece of music whose notes are known, from bar `skip` on; none where it is too short. */
function* written(
  kind: 'song' | 'styled',
  corpus: string,
  id: string,
  cache: string,
  fold: string,
  skip: number,
): Generator<LearningTrack> {
  const truth = readTruth(corpus, id) as Structure;
  if (truth.downbeats.length < 16) return;
  const bars = gridFromTruth({ ...truth, beatsPerBar: 4 }).bars.map((b) => b.beats);
  const beatsPerBar = [...bars].sort((a, b) => a - b)[bars.length >> 1];
  const grid = skipBars(gridFromTruth({ ...truth, beatsPerBar }), skip);
  const inside = (b: number) => b > 0 && b < grid.bars.length;
  const frontEnd = cachedFrontEnd(corpus, id, cache);
  const sounds = heard(frontEnd, grid);
  const midi = join(corpus, 'scores', `${id}.mid`);
  const driving = (truth.instrumentation ?? []).filter(({ role }) => DRIVING_ROLES.includes(role));
  const driven = (b: number) => driving.some((t) => t.bars[b + skip] === '1');
  yield {
    id,
    kind,
    fold,
    skipped: skip,
    ...sounds,
    layers: Object.fromEntries(LAYERS.map((l) => [l, songLayer(truth, l, grid.bars.length, skip)])) as never,
    sections: (truth.sections ?? []).map((s) => s.bar - 1 - skip).filter(inside),
    phrases: null,
    functions: [],
    pickUps: [],
    struck: existsSync(midi)
      ? playedStruckExamples(
          struckPlaces(readFileSync(midi), beatsPerBar).slice(skip),
          driven,
          frontEnd,
          grid,
          sounds.steps,
        )
      : [],
  };
}

function songLayer({ instrumentation = [] }: Structure, layer: Layer, bars: number, skip: number): (boolean | null)[] {
  const own = instrumentation.filter((t) => LAYER_ROLES[layer].includes(t.role));
  const hiding = instrumentation.filter((t) => HIDING_ROLES[layer].includes(t.role));
  return Array.from({ length: bars }, (_, b) => {
    if (own.length === 0) return null;
    if (own.some((t) => t.bars[b + skip] === '1')) return true;
    return hiding.some((t) => t.bars[b + skip] === '1') ? null : false;
  });
}
