import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Reading } from '../../../src/form/decode.js';
import type { FunctionWeights, PhraseFunctions } from '../../../src/form/functions.js';
import { followsPlan, planCues } from '../../../src/form/plan.js';
import { FUNCTION_STEPS } from '../../../src/form/weights/index.js';
import { treeOdds, type Logistic } from '../../../src/learned/index.js';
import { cachedArranged } from './cached.js';
import {
  fitBoundaries,
  fitDrivingBass,
  fitLayers,
  fitPickUps,
  fitPresence,
  fitStruck,
  judged,
  type JudgedTrack,
} from './fit.js';
import { fitFunctions, functionRow } from './fit-functions.js';
import { fitPlan, fOf, followed, planExample } from './fit-plan.js';
import { FOLDS, foldsOf } from './folds.js';
import { doesOf, heldOutReadings, type FirstReading } from './readings.js';
import { songTracks, styledTracks } from './songs.js';
import { arrangedTracks, tellsOfSections, type LearningTrack } from './tracks.js';
import {
  writeDrivingBass,
  writeBoundaries,
  writeFunctions,
  writeLayers,
  writePickUps,
  writePlan,
  writePresence,
  writeStruck,
} from './write.js';

const USAGE = `npx tsx tests/form/training/train-form.ts FOLDER [options]
  Fits the scores of the form on the development songs in FOLDER (made by tests/corpus/build) and on arranged tracks, all
  on their true grids, reports held-out folds (songs by maker), and writes src/form/weights/. Format what it wrote.
  --arrangements N   practice and drawn arrangements, this many of each (default 90)
  --only struck      only whether something strikes the beats of a bar without drums
  --only pick-ups    only what starts before the one
  --only presence    only the layers that are told: nothing else rests on them
  --dry              report only`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    arrangements: { type: 'string', default: '90' },
    only: { type: 'string' },
    dry: { type: 'boolean', default: false },
  },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}

/** Readings by weights that have not seen the track, without and with what the phrases do. */
interface HeldOut extends FirstReading {
  readonly weights: FunctionWeights;
  readonly does: PhraseFunctions;
  reading: Reading;
  /** Share of the bars whose function is right; null where none is known. */
  right: number | null;
}

function main(corpus: string): void {
  const cache = join(corpus, 'front-ends');
  const arrangements = [...arrangedTracks(Number(values.arrangements), cachedArranged(cache))];
  const styled = [...styledTracks(corpus)];
  const songs = [...songTracks(corpus, cache)];
  const played = [...arrangements, ...songs, ...styled, ...styledTracks(corpus, 'varied')];
  if (values.only === undefined || values.only === 'struck') {
    reportStruck(played);
    if (!values.dry) writeStruck(fitStruck(played));
  }
  if (values.only === undefined || values.only === 'pick-ups') {
    if (!values.dry) writePickUps(fitPickUps(played));
  }
  if (values.only === 'struck' || values.only === 'pick-ups') return;
  if (values.only === 'presence') return presence(played);
  const tracks = [...arrangements, ...songs, ...styled, ...styledTracks(corpus, 'planned')];
  const foldOf = foldsOf(tracks);
  const held: JudgedTrack[] = [];
  for (let f = 0; f < FOLDS; f++) {
    const models = fitLayers(tracks.filter((t) => foldOf(t) !== f));
    held.push(...tracks.filter((t) => foldOf(t) === f).map((t) => judged(t, models)));
  }
  const firsts = heldOutReadings(held, foldOf);
  const functionsFrom = (some: readonly JudgedTrack[]) =>
    fitFunctions(
      some
        .filter((t) => t.functions.length > 0)
        .map((t) => functionRow(t, firsts.get(t)!.scores, firsts.get(t)!.first.phraseStarts)),
      FUNCTION_STEPS,
    );
  const heldOut = new Map<JudgedTrack, HeldOut>();
  for (let f = 0; f < FOLDS; f++) {
    const weights = functionsFrom(held.filter((t) => foldOf(t) !== f));
    for (const t of held)
      if (foldOf(t) === f) {
        const { scores, first } = firsts.get(t)!;
        const does = doesOf(t, scores, weights, first.phraseStarts);
        heldOut.set(t, { scores, first, weights, does, reading: first, right: null });
      }
  }
  const planOf = new Map(held.map((t) => [t, planExample(t, heldOut.get(t)!, heldOut.get(t)!.does)]));
  const planFrom = (some: readonly JudgedTrack[]) => fitPlan(some.map((t) => planOf.get(t)!));
  for (let f = 0; f < FOLDS; f++) {
    const plan = planFrom(held.filter((t) => foldOf(t) !== f));
    for (const t of held) if (foldOf(t) === f) readAgain(t, heldOut.get(t)!, plan);
  }
  report(heldOut);
  if (values.dry) return;
  writeLayers(fitLayers(tracks));
  presence(played);
  writeBoundaries(fitBoundaries(held));
  writeFunctions(functionsFrom(held));
  writePlan(planFrom(held));
}

function presence(tracks: readonly LearningTrack[]): void {
  writePresence(fitPresence(tracks));
  writeDrivingBass(fitDrivingBass(tracks));
}

/** As the analysis does it: sections that know what the phrases do, then functions of the sections. */
function readAgain(t: JudgedTrack, held: HeldOut, plan: Logistic): void {
  const { scores, first, does } = held;
  const cues = planCues(scores.section, first.phraseStarts, does);
  held.reading = followed(held, does, followsPlan(cues, plan));
  const { phraseStarts: starts, sectionStarts } = held.reading;
  const joined = starts.map((b) => !sectionStarts.includes(b));
  const { functions } = doesOf(t, scores, held.weights, starts, joined);
  if (t.functions.length === 0) return;
  const ends = [...starts.slice(1), t.features.bars];
  let right = 0;
  starts.forEach((from, i) => {
    for (const f of t.functions)
      if (f.function === functions[i]) right += Math.max(0, Math.min(f.to, ends[i]) - Math.max(f.from, from));
  });
  held.right = right / t.features.bars;
}

/** Share of the bars without drums and bass whose chords are rightly called struck or held, by weights without the track. */
function reportStruck(tracks: readonly LearningTrack[]): void {
  const folds = [...new Set(tracks.map((t) => t.fold))].sort();
  const foldOf = (t: LearningTrack) => folds.indexOf(t.fold) % FOLDS;
  const counts = new Map<string, { bars: number; right: number }>();
  for (let f = 0; f < FOLDS; f++) {
    const model = fitStruck(tracks.filter((t) => foldOf(t) !== f));
    for (const t of tracks.filter((t) => foldOf(t) === f))
      for (const e of t.struck) {
        const name = `${t.kind}, ${e.right ? 'struck' : 'held'}`;
        const count = counts.get(name) ?? { bars: 0, right: 0 };
        counts.set(name, count);
        count.bars++;
        if (treeOdds(model, e.cues) > 0 === e.right) count.right++;
      }
  }
  for (const [name, { bars, right }] of [...counts].sort())
    console.log(`${name}: ${(right / bars).toFixed(3)} of ${bars} bars right, held out`);
}

function report(heldOut: ReadonlyMap<JudgedTrack, HeldOut>): void {
  const groups = new Map<string, number[]>();
  const add = (name: string, f: number) => groups.set(name, [...(groups.get(name) ?? []), f]);
  for (const [t, { first, reading, right }] of heldOut) {
    const planned = t.functions.length > 0;
    const kind = {
      arranged: `arranged tracks${planned ? '' : ' without a plan'}`,
      song: 'songs',
      styled: 'played styles',
      varied: 'played styles in other dress',
      planned: 'planned pieces',
    }[t.kind];
    if (t.phrases !== null) add(`${kind}, phrases`, fOf(reading.phraseStarts.slice(1), t.phrases));
    if (!tellsOfSections(t)) continue;
    const name = t.kind === 'song' && t.skipped > 0 ? 'cut songs' : kind;
    add(`${name}, sections without functions`, fOf(first.sectionStarts.slice(1), t.sections));
    add(`${name}, sections`, fOf(reading.sectionStarts.slice(1), t.sections));
    if (right !== null) add(`${name}, share of bars with the right function, not F`, right);
  }
  for (const [name, f] of groups)
    console.log(
      `${name}: F ${(f.reduce((a, b) => a + b, 0) / f.length).toFixed(3)} at the exact bar, ${f.length} held out`,
    );
}
