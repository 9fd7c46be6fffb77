import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { LayerCues } from '../../../src/form/layer-cues.js';
import { layerTracks } from '../../../src/form/layers.js';
import { withTrack } from '../../../src/form/track-cues.js';
import { PRESENCE_WEIGHTS } from '../../../src/form/weights/index.js';
import { pickUpCues } from '../../../src/form/pick-up-cues.js';
import type { StepTable } from '../../../src/form/steps.js';
import type { Grid } from '../../../src/rhythm/index.js';
import { LAYERS, type Layer, type SectionFunction } from '../../../src/units/index.js';
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
  /** Bars, from 1, at which something was drawn anew, and parts that come in early before some of them. */
  readonly drawn?: readonly number[];
  readonly pick_ups?: readonly { readonly bar: number; readonly beats: number }[];
  readonly sections?: readonly { readonly bar: number; readonly bars: number; readonly function?: SectionFunction }[];
  /** First bars, from 1. */
  readonly phrases?: readonly number[];
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

/** Kinds of pieces in played styles: each has its folder and the script of its name in tests/corpus/build. */
type StyledKind = 'styled' | 'varied' | 'planned';

/**
 * Pieces of CORPUS/styled, made by tests/corpus/build/styled.py, or of another kind, half of them with their first few bars left out; none
 * where there is no such folder. The styles that the played pieces keep back are left out.
 */
export function* styledTracks(corpus: string, kind: StyledKind = 'styled'): Generator<LearningTrack> {
  const folder = join(corpus, kind);
  if (!existsSync(join(folder, 'truth'))) return;
  for (const [i, id] of pieceIds(folder).entries()) {
    const { style } = readTruth(folder, id) as SongTruth & { readonly style: string };
    const skip = i % 2 === 0 ? 0 : 1 + ((i >> 1) % 7);
    if (!isLocked(`played-${style}`))
      yield* written(kind, folder, id, join(folder, 'front-ends'), `styled-${style}`, skip);
  }
}

/** A piece of music whose notes are known, from bar `skip` on; none where it is too short. */
function* written(
  kind: 'song' | StyledKind,
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
  const driven = kind === 'song' ? drivenAsHeard(sounds.cues) : drivenBy(truth, skip);
  yield {
    id,
    kind,
    fold,
    skipped: skip,
    ...sounds,
    layers: Object.fromEntries(LAYERS.map((l) => [l, songLayer(truth, l, grid.bars.length, skip)])) as never,
    sections: (truth.sections ?? []).map((s) => s.bar - 1 - skip).filter(inside),
    phrases: truth.phrases?.map((bar) => bar - 1 - skip).filter(inside) ?? null,
    functions: functionsOf(truth, skip),
    pickUps: kind === 'song' ? [] : pickUpExamples(truth, grid, sounds.steps, skip),
    struck: playedStruckExamples(placesOf(corpus, id, beatsPerBar).slice(skip), driven, frontEnd, grid, sounds.steps),
  };
}

function functionsOf({ sections = [] }: Structure, skip: number): LearningTrack['functions'] {
  return sections.flatMap((s) =>
    s.function === undefined
      ? []
      : [{ from: Math.max(0, s.bar - 1 - skip), to: Math.max(0, s.bar - 1 + s.bars - skip), function: s.function }],
  );
}

/** In how many sixteenths of each bar something is struck, from a score or from what tests/corpus/build/places.py wrote; null or none where that is not known. */
function placesOf(corpus: string, id: string, beatsPerBar: number): (number | null)[] {
  const midi = join(corpus, 'scores', `${id}.mid`);
  if (existsSync(midi)) return struckPlaces(readFileSync(midi), beatsPerBar);
  const places = join(corpus, 'places', `${id}.json`);
  return existsSync(places) ? (JSON.parse(readFileSync(places, 'utf8')) as (number | null)[]) : [];
}

function drivenBy({ instrumentation = [] }: Structure, skip: number) {
  const driving = instrumentation.filter(({ role }) => DRIVING_ROLES.includes(role));
  return (b: number) => driving.some((t) => t.bars[b + skip] === '1');
}

/** Names of a song's tracks do not always tell which are drums and bass, so where they play is what is heard. */
function drivenAsHeard(cues: LayerCues) {
  const { kick, percussion, bass } = layerTracks(withTrack(cues), PRESENCE_WEIGHTS);
  return (b: number) => [kick, percussion, bass].some(({ presence }) => (presence[b] ?? 0) >= 0.5);
}

/** Before every bar at which something was drawn anew, whether a part comes in so many beats early. */
function pickUpExamples(truth: Structure, grid: Grid, steps: StepTable, skip: number) {
  const { drawn = (truth.sections ?? []).map((s) => s.bar), pick_ups: planted = [] } = truth;
  return drawn.flatMap((bar) => {
    const b = bar - 1 - skip;
    if (b < 1 || b >= grid.bars.length) return [];
    const early = planted.filter((p) => p.bar === bar).map((p) => p.beats);
    return Array.from({ length: grid.bars[b - 1].beats - 1 }, (_, k) => ({
      cues: pickUpCues(grid, steps, b, k + 1),
      right: early.includes(k + 1),
    }));
  });
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
