import { boundaryCues, type BoundaryCues } from '../../../src/form/boundary-cues.js';
import { LAYER_CUES, PLAIN_CUES } from '../../../src/form/layer-cues.js';
import { layerTracks, type LayerModel, type LayerTrack } from '../../../src/form/layers.js';
import { withTrack } from '../../../src/form/track-cues.js';
import {
  fitLogistic,
  fitNetwork,
  fitTrees,
  type Example,
  type BoostOptions,
  type Network,
  type NetworkOptions,
  type Trees,
} from '../../../src/learned/index.js';
import { LAYERS, type Layer } from '../../../src/units/index.js';
import { tellsOfSections, type LearningTrack } from './tracks.js';

/** L2 penalties, by the held-out folds. */
const PENALTY = { layers: 10, presence: 30 } as const;

/** How the trees for strokes are grown, and the network for pick-ups is fitted, by the held-out folds. */
const STRUCK_TREES: BoostOptions = { trees: 150, depth: 3, rate: 0.08, l2: 5, examples: 0.5, cues: 0.3 };
const PICK_UP_NETWORK: NetworkOptions = { units: 12, l2: 10, noise: 0.7, passes: 60 };

/** How the trees of boundaries are grown, by the held-out folds: twice as many at half the rate, or deeper ones, gain nothing. */
const BOUNDARY_TREES = { trees: 150, depth: 3, rate: 0.08, l2: 20, examples: 0.5, cues: 0.3 } as const;

export type LayerModels = Readonly<Record<Layer, LayerModel>>;

export interface BoundaryModels {
  readonly phrase: Trees;
  readonly section: Trees;
}

/**
 * What all arranged tracks, and all pieces in played styles, may count at most against all songs, by the held-out folds.
 */
const SHARES = { arranged: 0.5, styled: 0.25 };
/** What a track counts against an arranged one where layers are learned. */
type LayerShares = Readonly<Record<LearningTrack['kind'], (layer: Layer) => number>>;
/** For the layers that phrases and sections rest on. */
const LAYER_SHARES: LayerShares = {
  arranged: () => 1,
  song: () => 1.5,
  styled: () => 1,
  varied: () => 0,
  planned: () => 0,
};
/** For the layers that are told: in played styles percussion never rests for long, and what enters softly was missed. */
const PRESENCE_SHARES: LayerShares = {
  ...LAYER_SHARES,
  styled: (layer) => (layer === 'percussion' ? 0 : 0.4),
  varied: (layer) => (layer === 'voice' || layer === 'bass' ? 0 : 0.4),
  planned: () => 0,
};

/** A track with its layers as a model that has not seen it would judge them. */
export interface JudgedTrack extends LearningTrack {
  readonly tracks: Readonly<Record<Layer, LayerTrack>>;
  readonly boundary: BoundaryCues;
}

export function judged(track: LearningTrack, models: LayerModels): JudgedTrack {
  const tracks = layerTracks(track.cues, models);
  return { ...track, tracks, boundary: boundaryCues(track.features, track.steps, tracks) };
}

/** Fits the layers that phrases and sections rest on, by the cues that know nothing of chords. */
export function fitLayers(tracks: readonly LearningTrack[]): LayerModels {
  return fitPresences(
    tracks,
    () => PLAIN_CUES,
    LAYER_SHARES,
    (_, examples) => fitLogistic(examples, PENALTY.layers),
  );
}

/** Layers that are told against their track as well; the others have soft parts, which would be missed. */
const AGAINST_TRACK: readonly Layer[] = ['kick', 'harmony'];

/** Layers that are told by a network; the others gain nothing by it. Sizes by the held-out folds. */
const BY_NETWORK: readonly Layer[] = ['harmony'];
const NETWORK: NetworkOptions = { units: 12, l2: 100, noise: 0.6, passes: 25 };

/** Fits the layers that are told, by all cues. */
export function fitPresence(tracks: readonly LearningTrack[]): LayerModels {
  const against = tracks.map((t) => ({ ...t, cues: withTrack(t.cues) }));
  const cues = (layer: Layer) => (AGAINST_TRACK.includes(layer) ? 3 : 1) * LAYER_CUES.length;
  return fitPresences(against, cues, PRESENCE_SHARES, (layer, examples) =>
    BY_NETWORK.includes(layer) ? fitNetwork(examples, NETWORK) : fitLogistic(examples, PENALTY.presence),
  );
}

/**
 * Fits whether a bass plays at all, against its track as well: where it says so a bass drives a beat. It finds more than the
 * bass that is told, but soft ones go missing, which a warning of two basses at once cannot do without.
 */
export function fitDrivingBass(tracks: readonly LearningTrack[]): Network {
  const against = tracks.map((t) => ({ ...t, cues: withTrack(t.cues) }));
  const shares: LayerShares = { ...PRESENCE_SHARES, varied: () => 0.4 };
  return fitNetwork(presenceExamples(against, 'bass', 3 * LAYER_CUES.length, shares), NETWORK);
}

/** Fits the presence of each layer by so many cues, the first; a track counts as thirty bars, however long it is. */
function fitPresences(
  tracks: readonly LearningTrack[],
  cues: (layer: Layer) => number,
  shares: LayerShares,
  fit: (layer: Layer, examples: readonly Example[]) => LayerModel,
): LayerModels {
  const models = LAYERS.map((l) => [l, fit(l, presenceExamples(tracks, l, cues(l), shares))]);
  return Object.fromEntries(models) as Record<Layer, LayerModel>;
}

function presenceExamples(
  tracks: readonly LearningTrack[],
  layer: Layer,
  cues: number,
  shares: LayerShares,
): Example[] {
  return tracks
    .filter((t) => (t.kind !== 'song' || t.skipped === 0) && shares[t.kind](layer) > 0)
    .flatMap((t) => {
      const known = t.layers[layer].filter((y) => y !== null).length;
      const weight = (shares[t.kind](layer) * 30) / Math.max(30, known);
      return t.layers[layer].flatMap((right, b): Example[] =>
        right === null ? [] : [{ cues: row(t.cues, b).subarray(0, cues), right, weight }],
      );
    });
}

/** Fits "a phrase starts here" and "a section starts here". */
export function fitBoundaries(tracks: readonly JudgedTrack[]): BoundaryModels {
  const usable = tracks.filter(tellsOfSections);
  const fit = (examplesOf: (t: JudgedTrack) => Example[]) => {
    const of = (kind: LearningTrack['kind']) => usable.filter((t) => t.kind === kind).flatMap(examplesOf);
    const songs = of('song');
    const others = (['arranged', 'styled'] as const).flatMap((kind) => atMost(SHARES[kind], of(kind), songs));
    return fitTrees([...songs, ...others], BOUNDARY_TREES);
  };
  return { phrase: fit(phraseExamples), section: fit(sectionExamples) };
}

/** Any number of tracks made for learning must not outweigh the songs: together they count `share` of them at most. */
function atMost(share: number, examples: readonly Example[], songs: readonly Example[]): Example[] {
  const total = (some: readonly Example[]) => some.reduce((s, e) => s + e.weight, 0);
  const factor = songs.length === 0 ? 1 : Math.min(1, (share * total(songs)) / Math.max(total(examples), 1));
  return examples.map((e) => ({ ...e, weight: e.weight * factor }));
}

export function fitPickUps(tracks: readonly LearningTrack[]): Network {
  const examples = tracks.flatMap((t) => t.pickUps.map((p): Example => ({ ...p, weight: 1 })));
  return fitNetwork(examples, PICK_UP_NETWORK);
}

/** What a piece in a played style counts against an arranged track, by the held-out folds. */
const STRUCK_SHARES: Readonly<Record<LearningTrack['kind'], number>> = {
  arranged: 1,
  song: 1,
  styled: 0.25,
  varied: 0.4,
  planned: 0,
};

/** Fits "something strikes the beats of this bar without drums or bass"; a track counts as thirty bars. */
export function fitStruck(tracks: readonly LearningTrack[]): Trees {
  const whole = tracks.filter((t) => t.kind !== 'song' || t.skipped === 0);
  const examples = whole.flatMap((t) =>
    t.struck.map((e): Example => {
      return { ...e, weight: (30 * STRUCK_SHARES[t.kind]) / Math.max(30, t.features.bars) };
    }),
  );
  return fitTrees(examples, STRUCK_TREES);
}

function sectionExamples(t: JudgedTrack): Example[] {
  const weight = t.kind === 'arranged' || t.skipped > 0 ? 0.5 : 1;
  return bars(t).map((b) => ({ cues: row(t.boundary, b), right: t.sections.includes(b), weight }));
}

/**
 * Songs tell of sections alone: their starts are phrase starts; inside a section of whole groups, bars off the groups are
 * none; the rest is left out.
 */
function phraseExamples(t: JudgedTrack): Example[] {
  const { phrases } = t;
  if (phrases !== null)
    return bars(t).map((b) => ({ cues: row(t.boundary, b), right: phrases.includes(b), weight: 0.7 }));
  const share = t.skipped > 0 ? 0.4 : 0.8;
  const starts = [-t.skipped, ...t.sections, t.features.bars];
  return starts.slice(0, -1).flatMap((from, i) => {
    const to = starts[i + 1];
    const out: Example[] = from > 0 ? [{ cues: row(t.boundary, from), right: true, weight: share }] : [];
    if ((to - from) % 4 !== 0) return out;
    for (let b = Math.max(from + 1, 1); b < to; b++)
      if ((b - from) % 4 !== 0) out.push({ cues: row(t.boundary, b), right: false, weight: share / 2 });
    return out;
  });
}

function bars(t: LearningTrack): number[] {
  return Array.from({ length: t.features.bars - 1 }, (_, i) => i + 1);
}

function row({ values, columns }: BoundaryCues, b: number): Float32Array {
  return values.subarray(b * columns, (b + 1) * columns);
}
