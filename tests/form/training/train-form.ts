import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { decode, type Reading } from '../../../src/form/decode.js';
import { PHRASE_BARS } from '../../../src/form/lengths.js';
import { BOUNDARY_SCALES, FUNCTION_STEPS, LENGTH_COSTS } from '../../../src/form/weights/index.js';
import { fitBoundaries, fitLayers, fitPickUps, judged, oddsOf, type BoundaryModels, type JudgedTrack } from './fit.js';
import { fitFunctions, functionRow } from './fit-functions.js';
import { arrangedTracks, songTracks, type LearningTrack } from './tracks.js';
import { writeBoundaries, writeFunctions, writeLayers, writePickUps } from './write.js';

const USAGE = `npx tsx tests/form/training/train-form.ts FOLDER [options]
  Fits the scores of the form on the development songs in FOLDER (made by tests/corpus/build) and on arranged tracks, all
  on their true grids, reports held-out folds (songs by maker), and writes src/form/weights/. Format what it wrote.
  --arrangements N   practice and drawn arrangements, this many of each (default 90)
  --dry              report only`;

const FOLDS = 5;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { arrangements: { type: 'string', default: '90' }, dry: { type: 'boolean', default: false } },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}

function main(corpus: string): void {
  const tracks = [...arrangedTracks(Number(values.arrangements)), ...songTracks(corpus, join(corpus, 'front-ends'))];
  const folds = [...new Set(tracks.map((t) => t.fold))].sort();
  const foldOf = (t: LearningTrack) => folds.indexOf(t.fold) % FOLDS;
  const held: JudgedTrack[] = [];
  for (let f = 0; f < FOLDS; f++) {
    const models = fitLayers(tracks.filter((t) => foldOf(t) !== f));
    held.push(...tracks.filter((t) => foldOf(t) === f).map((t) => judged(t, models)));
  }
  const readings = new Map<JudgedTrack, Reading>();
  for (let f = 0; f < FOLDS; f++) {
    const models = fitBoundaries(held.filter((t) => foldOf(t) !== f));
    for (const t of held) if (foldOf(t) === f) readings.set(t, read(t, models));
  }
  report(readings);
  if (values.dry) return;
  writeLayers(fitLayers(tracks));
  writeBoundaries(fitBoundaries(held));
  writePickUps(fitPickUps(tracks));
  const known = held.filter((t) => t.functions.length > 0);
  const rows = known.flatMap((t) => [
    functionRow(t, [0, ...t.sections]),
    functionRow(t, readings.get(t)!.sectionStarts),
  ]);
  writeFunctions(fitFunctions(rows, FUNCTION_STEPS));
}

function read(t: JudgedTrack, models: BoundaryModels): Reading {
  const { phraseScale, phraseBias, sectionScale, sectionBias } = BOUNDARY_SCALES;
  const scores = {
    phrase: oddsOf(models.phrase, t.boundary).map((v) => phraseScale * v + phraseBias),
    section: oddsOf(models.section, t.boundary).map((v) => sectionScale * v + sectionBias),
  };
  const value = (r: Reading) => r.evidence - LENGTH_COSTS.usual[PHRASE_BARS.indexOf(r.usual as 4 | 8 | 16)];
  return PHRASE_BARS.map((usual) => decode(t.features.bars, scores, LENGTH_COSTS, usual)).reduce((a, b) =>
    value(b) > value(a) ? b : a,
  );
}

/** F-measure of starts at the exact bar, the first bar left out. */
function fOf(found: readonly number[], right: readonly number[]): number {
  const hits = found.filter((b) => right.includes(b)).length;
  return found.length + right.length > 0 ? (2 * hits) / (found.length + right.length) : 1;
}

function report(readings: ReadonlyMap<JudgedTrack, Reading>): void {
  const groups = new Map<string, number[]>();
  const add = (name: string, f: number) => groups.set(name, [...(groups.get(name) ?? []), f]);
  for (const [t, r] of readings) {
    if (t.phrases !== null) add('arranged tracks, phrases', fOf(r.phraseStarts.slice(1), t.phrases));
    if (t.kind === 'arranged') add('arranged tracks, sections', fOf(r.sectionStarts.slice(1), t.sections));
    else if (t.sections.length >= 2)
      add(t.skipped > 0 ? 'cut songs, sections' : 'songs, sections', fOf(r.sectionStarts.slice(1), t.sections));
  }
  for (const [name, f] of groups)
    console.log(
      `${name}: F ${(f.reduce((a, b) => a + b, 0) / f.length).toFixed(3)} at the exact bar, ${f.length} held out`,
    );
}
