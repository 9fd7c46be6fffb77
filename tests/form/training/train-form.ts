import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { decode, type Reading } from '../../../src/form/decode.js';
import { functionCues } from '../../../src/form/function-cues.js';
import { changeCues, functionChain, phraseFunctions, type FunctionWeights } from '../../../src/form/functions.js';
import type { BoundaryScores } from '../../../src/form/lattice.js';
import { PHRASE_BARS } from '../../../src/form/lengths.js';
import { BOUNDARY_SCALES, FUNCTION_STEPS, LENGTH_COSTS } from '../../../src/form/weights/index.js';
import { treeOdds } from '../../../src/learned/index.js';
import { sectionScores } from '../../../src/form/section-scores.js';
import { cachedArranged } from './cached.js';
import {
  fitBoundaries,
  fitDrivingBass,
  fitLayers,
  fitPickUps,
  fitPresence,
  fitStruck,
  judged,
  oddsOf,
  type BoundaryModels,
  type JudgedTrack,
} from './fit.js';
import { fitFunctions, functionRow } from './fit-functions.js';
import { songTracks, styledTracks } from './songs.js';
import { arrangedTracks, type LearningTrack } from './tracks.js';
import {
  writeDrivingBass,
  writeBoundaries,
  writeFunctions,
  writeLayers,
  writePickUps,
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

const FOLDS = 5;

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

/** Boundary scores by weights that have not seen the track, and readings without and with what the phrases do. */
interface HeldOut {
  readonly scores: BoundaryScores;
  readonly first: Reading;
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
  const tracks = [...arrangements, ...songs, ...styled];
  const folds = [...new Set(tracks.map((t) => t.fold))].sort();
  const foldOf = (t: LearningTrack) => folds.indexOf(t.fold) % FOLDS;
  const held: JudgedTrack[] = [];
  for (let f = 0; f < FOLDS; f++) {
    const models = fitLayers(tracks.filter((t) => foldOf(t) !== f));
    held.push(...tracks.filter((t) => foldOf(t) === f).map((t) => judged(t, models)));
  }
  const heldOut = new Map<JudgedTrack, HeldOut>();
  for (let f = 0; f < FOLDS; f++) {
    const models = fitBoundaries(held.filter((t) => foldOf(t) !== f));
    for (const t of held)
      if (foldOf(t) === f) {
        const scores = scoresOf(t, models);
        const first = firstReading(t, scores);
        heldOut.set(t, { scores, first, reading: first, right: null });
      }
  }
  const functionsFrom = (some: readonly JudgedTrack[]) =>
    fitFunctions(
      some
        .filter((t) => t.functions.length > 0)
        .map((t) => functionRow(t, heldOut.get(t)!.scores, heldOut.get(t)!.first.phraseStarts)),
      FUNCTION_STEPS,
    );
  for (let f = 0; f < FOLDS; f++) {
    const weights = functionsFrom(held.filter((t) => foldOf(t) !== f));
    for (const t of held) if (foldOf(t) === f) readAgain(t, heldOut.get(t)!, weights);
  }
  report(heldOut);
  if (values.dry) return;
  writeLayers(fitLayers(tracks));
  presence(played);
  writeBoundaries(fitBoundaries(held));
  writeFunctions(functionsFrom(held));
}

function presence(tracks: readonly LearningTrack[]): void {
  writePresence(fitPresence(tracks));
  writeDrivingBass(fitDrivingBass(tracks));
}

function scoresOf(t: JudgedTrack, models: BoundaryModels): BoundaryScores {
  const { phraseScale, phraseBias, sectionScale, sectionBias } = BOUNDARY_SCALES;
  return {
    phrase: oddsOf(models.phrase, t.boundary).map((v, b) => (b === 0 ? 0 : phraseScale * v + phraseBias)),
    section: oddsOf(models.section, t.boundary).map((v, b) => (b === 0 ? 0 : sectionScale * v + sectionBias)),
  };
}

function firstReading(t: JudgedTrack, scores: BoundaryScores): Reading {
  const value = (r: Reading) => r.evidence - LENGTH_COSTS.usual[PHRASE_BARS.indexOf(r.usual as 4 | 8 | 16)];
  return PHRASE_BARS.map((usual) => decode(t.features.bars, scores, LENGTH_COSTS, usual)).reduce((a, b) =>
    value(b) > value(a) ? b : a,
  );
}

/** As the analysis does it: functions of the phrases, sections that know them, functions of the sections. */
function readAgain(t: JudgedTrack, held: HeldOut, weights: FunctionWeights): void {
  const { scores, first } = held;
  const chainOf = (starts: readonly number[]) =>
    functionChain(functionCues(t.features, t.tracks, starts), changeCues(scores, starts), weights);
  const free = (starts: readonly number[]) => starts.map(() => null);
  const does = phraseFunctions(chainOf(first.phraseStarts), free(first.phraseStarts));
  const informed = sectionScores(scores, first.phraseStarts, does);
  held.reading = decode(t.features.bars, informed, LENGTH_COSTS, first.usual);
  const { phraseStarts: starts, sectionStarts } = held.reading;
  const joined = starts.map((b) => !sectionStarts.includes(b));
  const { functions } = phraseFunctions(chainOf(starts), free(starts), joined);
  if (t.functions.length === 0) return;
  const ends = [...starts.slice(1), t.features.bars];
  let right = 0;
  starts.forEach((from, i) => {
    for (const f of t.functions)
      if (f.function === functions[i]) right += Math.max(0, Math.min(f.to, ends[i]) - Math.max(f.from, from));
  });
  held.right = right / t.features.bars;
}

/** F-measure of starts at the exact bar, the first bar left out. */
function fOf(found: readonly number[], right: readonly number[]): number {
  const hits = found.filter((b) => right.includes(b)).length;
  return found.length + right.length > 0 ? (2 * hits) / (found.length + right.length) : 1;
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
    }[t.kind];
    if (t.phrases !== null) add(`${kind}, phrases`, fOf(reading.phraseStarts.slice(1), t.phrases));
    if (t.kind !== 'arranged' && t.sections.length < 2) continue;
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
