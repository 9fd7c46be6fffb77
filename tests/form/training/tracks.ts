import { randomArrangement, type Arrangement } from '../../../src/arranger/index.js';
import { barFeatures, type BarFeatures } from '../../../src/form/bars.js';
import { layerCues, type LayerCues } from '../../../src/form/layer-cues.js';
import { pickUpCues } from '../../../src/form/pick-up-cues.js';
import { stepTable, type StepTable } from '../../../src/form/steps.js';
import type { Grid } from '../../../src/rhythm/index.js';
import type { FrontEnd } from '../../../src/signal/index.js';
import { LAYERS, type Layer, type SectionFunction } from '../../../src/units/index.js';
import { arranged, type ArrangedTrack } from '../arranged.js';
import { pickUpArrangement, practiceArrangement } from './practice.js';
import { struckExamples, type StruckExample } from './struck.js';

/** Whether a layer sounds in each bar; null where the truth does not say. */
export type LayerTruth = Readonly<Record<Layer, readonly (boolean | null)[]>>;

/** A track to learn from, on its true grid, all places as indices of bars. */
export interface LearningTrack {
  readonly id: string;
  /**
   * Drawn by the arranger; a development song; a piece in somebody's style whose instruments come and go as drawn, plain, varied,
   * or by a plan of what its sections do.
   */
  readonly kind: 'arranged' | 'song' | 'styled' | 'varied' | 'planned';
  /** Tracks that are held out together. */
  readonly fold: string;
  /** Bars left out at the start: half of what is learned from begins inside a phrase. */
  readonly skipped: number;
  readonly steps: StepTable;
  readonly features: BarFeatures;
  readonly cues: LayerCues;
  readonly layers: LayerTruth;
  readonly sections: readonly number[];
  /** null where only sections are known. */
  readonly phrases: readonly number[] | null;
  readonly functions: readonly { readonly from: number; readonly to: number; readonly function: SectionFunction }[];
  readonly pickUps: readonly { readonly cues: readonly number[]; readonly right: boolean }[];
  readonly struck: readonly StruckExample[];
}

/** Fewer sections than this tell nothing of boundaries. */
const LEAST_SECTIONS = 2;

export function tellsOfSections(track: LearningTrack): boolean {
  return track.kind === 'arranged' || track.kind === 'planned' || track.sections.length >= LEAST_SECTIONS;
}

/** The grid from bar `skip` on, renumbered. */
export function skipBars(grid: Grid, skip: number): Grid {
  const first = grid.bars[skip].firstBeat;
  const bars = grid.bars.slice(skip).map((b, i) => ({ ...b, number: i + 1, firstBeat: b.firstBeat - first }));
  return { ...grid, beats: grid.beats.slice(first), bars };
}

/** What the form hears on a grid. */
export function heard(frontEnd: FrontEnd, grid: Grid) {
  const steps = stepTable(frontEnd, grid);
  return { steps, features: barFeatures(frontEnd, grid, steps), cues: layerCues(frontEnd, grid, steps) };
}

/** Arranged tracks by seed; `draw` makes the arrangement. */
export function arrangedTrack(id: string, arrangement: Arrangement, skip: number, hear = arranged): LearningTrack {
  const { truth, frontEnd, grid: whole } = hear(arrangement);
  const grid = skipBars(whole, skip);
  const inside = (bar: number) => bar - 1 - skip > 0 && bar - 1 - skip < grid.bars.length;
  const layers = Object.fromEntries(
    LAYERS.map((layer) => {
      const events = truth.events.filter((e) => e.layer === layer);
      const at = (bar: number) => events.findLast((e) => e.bar <= bar)?.change === 'enters';
      return [layer, grid.bars.map((_, b) => at(b + 1 + skip))];
    }),
  ) as unknown as LayerTruth;
  const sounds = heard(frontEnd, grid);
  const planted = new Map(truth.irregularities.filter((i) => i.kind === 'pick-up').map((i) => [i.bar, i.amount]));
  const pickUps = truth.phrases
    .filter((p) => inside(p.startBar))
    .flatMap(({ startBar }) => {
      const b = startBar - 1 - skip;
      return Array.from({ length: grid.bars[b - 1].beats - 1 }, (_, k) => ({
        cues: pickUpCues(grid, sounds.steps, b, k + 1),
        right: planted.get(startBar) === k + 1,
      }));
    });
  return {
    id,
    kind: 'arranged',
    fold: id,
    skipped: skip,
    ...sounds,
    layers,
    sections: truth.sections
      .map((s) => s.startBar)
      .filter(inside)
      .map((bar) => bar - 1 - skip),
    phrases: truth.phrases
      .map((p) => p.startBar)
      .filter(inside)
      .map((bar) => bar - 1 - skip),
    functions: truth.sections.map((s) => ({
      from: Math.max(0, s.startBar - 1 - skip),
      to: Math.max(0, s.startBar - 1 - skip + s.bars),
      function: s.function,
    })),
    pickUps,
    struck: struckExamples(arrangement, truth, frontEnd, grid, sounds.steps),
  };
}

/**
 * `count` tracks each of the practice arrangements, the drawn ones, and short ones full of pick-ups.
 * @param hear renders and listens; `cachedArranged` does so once
 */
export function* arrangedTracks(
  count: number,
  hear: (arrangement: Arrangement) => ArrangedTrack = arranged,
): Generator<LearningTrack> {
  for (let i = 0; i < count; i++) {
    yield arrangedTrack(`practice ${i}`, practiceArrangement(i), i % 2 === 0 ? 0 : 1 + ((i >> 1) % 7), hear);
    yield arrangedTrack(`drawn ${i}`, randomArrangement(20_000 + i), i % 2 === 0 ? 0 : 1 + ((i >> 1) % 7), hear);
    // Their layers are drawn without a plan, so they tell nothing of functions.
    yield { ...arrangedTrack(`pick-ups ${i}`, pickUpArrangement(i), 0, hear), functions: [] };
  }
}
