import type { ArrangementTruth } from '../../../src/arranger/index.js';
import {
  estimateOfForm,
  irregularityHits,
  layerHits,
  readArrangementTruth,
  scoreTrack,
  type Estimate,
  type Hits,
} from '../../../src/evaluation/index.js';
import { findForm, type LayerEvent } from '../../../src/form/index.js';
import { findGrid } from '../../../src/rhythm/index.js';
import { IRREGULARITY_KINDS, LAYERS, type IrregularityKind, type Layer } from '../../../src/units/index.js';
import { inPlantedWords } from '../same-phrase.js';
import { drawnTrack, type SetName } from './drawn.js';
import { noveltyStarts } from './novelty.js';

/** One track to judge. */
export interface Task {
  readonly set: SetName;
  readonly seed: number;
  readonly keep?: string;
}

/** What one way to find form reached on one track; null where it does not say. */
export interface FormScores {
  readonly phrase: number | null;
  readonly halfBeat: number | null;
  readonly halfSecond: number | null;
  readonly threeSeconds: number | null;
  readonly functions: number | null;
}

export const SYSTEMS = ['barwise', 'every 8 bars', 'novelty'] as const;

export interface Verdict {
  readonly set: SetName;
  readonly seed: number;
  readonly style: string;
  /** Nothing irregular was planted. */
  readonly regular: boolean;
  /** The tempo is right and downbeat F is above 0.9: what builds on the grid can be judged by itself. */
  readonly gridRight: boolean;
  readonly scores: Readonly<Record<(typeof SYSTEMS)[number], FormScores>>;
  readonly layers: Readonly<Record<Layer, Hits>>;
  readonly kinds: Readonly<Record<IrregularityKind, Hits>>;
  /** Planted and reported, to read; only of the first set. */
  readonly note: string;
}

export function judge({ set, seed, keep }: Task): Verdict {
  const { truth, inaudible, frontEnd, style } = drawnTrack(set, seed, keep);
  const known = readArrangementTruth(`${set}-${seed}`, truth, frontEnd.duration, style);
  const grid = findGrid(frontEnd);
  const form = findForm(frontEnd, grid);
  const ours = estimateOfForm(grid, form);
  const functions = functionShare(truth.sections, form.sections);
  const grade = (said: Estimate, share: number | null): FormScores => {
    const s = scoreTrack(known, said);
    return { phrase: s.phraseF, halfBeat: s.boundaryHalfBeatF, halfSecond: s.boundary05F, threeSeconds: s.boundary3F, functions: share }; // prettier-ignore
  };
  const downbeats = ours.downbeats ?? [];
  const own = scoreTrack(known, ours);
  const bar = (60 / truth.bpm) * truth.beatsPerBar;
  const heard = form.events.filter((e) => !isUnlabelled(e, truth.events, inaudible, bar));
  const told = inPlantedWords(form.irregularities, truth, bar / 2);
  const named = (list: readonly { kind: string; bar: number }[]) => list.map((i) => `${i.kind}@${i.bar}`).join(' ');
  return {
    set,
    seed,
    style,
    regular: truth.irregularities.length === 0,
    gridRight: own.tempo1 === 1 && (own.downbeatF ?? 0) > 0.9,
    scores: {
      barwise: grade(ours, functions),
      'every 8 bars': grade(startingAt(ours, downbeats.map((_, i) => i).filter((i) => i % 8 === 0)), null), // prettier-ignore
      novelty: grade(startingAt(ours, downbeats.length > 1 ? noveltyStarts(frontEnd, downbeats) : []), null),
    },
    layers: byName(LAYERS, (layer) => {
      const of = (e: { layer: Layer }) => e.layer === layer;
      return layerHits(truth.events.filter(of), heard.filter(of), bar);
    }),
    kinds: byName(IRREGULARITY_KINDS, (kind) => {
      const of = (i: { kind: IrregularityKind }) => i.kind === kind;
      return irregularityHits(truth.irregularities.filter(of), told.filter(of), bar / 2);
    }),
    note: set === 'first' ? `planted ${named(truth.irregularities) || '–'}; reported ${named(form.irregularities) || '–'}` : '', // prettier-ignore
  };
}

function byName<K extends string, V>(names: readonly K[], value: (name: K) => V): Record<K, V> {
  return Object.fromEntries(names.map((name) => [name, value(name)])) as Record<K, V>;
}

/** Sections and phrases that start at some of the bars we found. */
function startingAt(ours: Estimate, bars: readonly number[]): Estimate {
  const downbeats = ours.downbeats ?? [];
  const starts = bars.map((i) => downbeats[i]);
  const end = downbeats.at(-1) ?? 0;
  const sections = starts.map((start, i) => ({ start, end: starts[i + 1] ?? end, label: '' }));
  return { ...ours, phraseStarts: starts, sections };
}

/** Share of the time of the track, in steps of a tenth of a second, in which both sides name the same function. */
export function functionShare(
  truth: ArrangementTruth['sections'],
  said: readonly { readonly start: number; readonly end: number; readonly function: string }[],
): number {
  let right = 0;
  let all = 0;
  for (const { start, end, function: name } of truth) {
    for (let t = start + 0.05; t < end; t += 0.1) {
      all++;
      if (said.find((s) => t >= s.start && t < s.end)?.function === name) right++;
    }
  }
  return all > 0 ? right / all : 0;
}

/** An event that was found where one happens that nobody hears, and none that is heard. */
function isUnlabelled(
  event: LayerEvent,
  audible: ArrangementTruth['events'],
  inaudible: ArrangementTruth['events'],
  window: number,
): boolean {
  const meets = (e: ArrangementTruth['events'][number]) =>
    e.layer === event.layer && e.change === event.change && Math.abs(e.time - event.time) <= window;
  return inaudible.some(meets) && !audible.some(meets);
}
