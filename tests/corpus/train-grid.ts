import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { foldedCueNames } from '../../src/rhythm/downbeat-cues.js';
import { READING_CUES } from '../../src/rhythm/reading-cues.js';
import { FRONT_END_ID } from '../../src/signal/index.js';
import {
  arrangementExamples,
  HALVES,
  joined,
  plainExamples,
  playedExamples,
  songExamples,
  type Examples,
} from './train-examples.js';
import {
  crossValidate,
  fitGrid,
  foldFits,
  isLocked,
  openSongs,
  score,
  scoreReadings,
  settingsOf,
  temperaturesOf,
  together,
  weightsOf,
  type ChoiceName,
  type GridFits,
  type Temperatures,
} from './train-folds.js';
import { report } from './train-report.js';

const USAGE = `npx tsx tests/corpus/train-grid.ts FOLDER [options]
  Fits the weights of tempo level, beat phase and downbeat on the development songs in FOLDER (made by
  tests/corpus/build), on the pieces in FOLDER/played (made by its accompaniments.py), on drawn arrangements and on
  plain rhythms, reports held-out folds, and writes src/learned/weights/.
  --arrangements N   drawn arrangements to train on (default 40)
  --dry              report only
  --source           also report folds that hold out the whole source
  --locked           also score the locked makers (log the look in docs/accuracy.md)`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    arrangements: { type: 'string', default: '40' },
    dry: { type: 'boolean', default: false },
    locked: { type: 'boolean', default: false },
    source: { type: 'boolean', default: false },
  },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}

function main(corpus: string): void {
  const cache = join(corpus, 'front-ends');
  const songs = songExamples(corpus, cache);
  const others = {
    drawn: arrangementExamples(Number(values.arrangements), cache),
    plain: plainExamples(),
    played: playedExamples(join(corpus, 'played')),
  };
  const temperatures = validate(songs, joined(Object.values(others)), 'maker');
  if (values.source) validate(songs, joined(Object.values(others)), 'source');
  const train = joined([songs, ...Object.values(others)].map((e) => only(e, (maker) => !isLocked(maker))));
  const fits = fitGrid(train);
  const styles = only(others.played, isLocked);
  say('styles kept back', styles, fits, temperatures);
  if (values.locked) say('locked makers', only(songs, isLocked), fits, temperatures);
  if (values.dry) return;
  const count = (examples: Examples) => new Set(only(examples, (m) => !isLocked(m)).beat.map((e) => e.id)).size;
  const from =
    `${count(songs)} development songs (whole, cut at two places, for the beat also by halves) of all but the locked makers, ` +
    `${count(others.drawn)} drawn arrangements, ${count(others.plain)} plain rhythms, ${count(others.played)} pieces in played styles`;
  for (const name of ['level', 'phase', 'downbeat'] as const) write(name, fits, temperatures, from);
}

function only({ beat, downbeat }: Examples, keep: (maker: string) => boolean): Examples {
  const kept = (examples: Examples['beat']) => examples.filter((e) => keep(e.maker));
  return { beat: kept(beat), downbeat: kept(downbeat) };
}

/** Reports what fits that had not seen a song's fold make of it; gives the temperatures that calibrate them. */
function validate(songs: Examples, others: Examples, by: 'maker' | 'source'): Temperatures {
  const fits = foldFits(songs, others, by);
  const folds = crossValidate(songs, fits, by);
  const all = together(folds.values());
  const temperatures = temperaturesOf(all);
  for (const name of ['phase', 'level', 'downbeat'] as const)
    console.log(report(`${name}, held-out ${by}`, all[name], temperatures[name]).join('\n'));
  const { beat } = openSongs(songs);
  const readings = [...folds.keys()].flatMap((fold) =>
    scoreReadings(
      beat.filter((e) => e[by] === fold),
      fits(fold),
      temperatures,
    ),
  );
  console.log(report(`beat, held-out ${by}`, readings, 1).join('\n'));
  for (const { example, scores } of readings) {
    const k = scores.indexOf(Math.max(...scores));
    if (!example.right[k] && example.cut < 2)
      console.log(
        `  beat wrong: ${example.id} cut ${example.cut} ratio ${example.ratios[k].toFixed(3)} score ${example.scores[k].toFixed(2)}`,
      );
  }
  for (const { example, scores } of all.downbeat)
    if (!example.right[scores.indexOf(Math.max(...scores))] && example.cut < 2)
      console.log(`  downbeat wrong: ${example.id} cut ${example.cut}`);
  return temperatures;
}

/** Reports fits on examples they have not seen. */
function say(title: string, { beat, downbeat }: Examples, fits: GridFits, temperatures: Temperatures): void {
  const whole = beat.filter((e) => e.cut < HALVES);
  console.log(report(`beat, ${title}`, scoreReadings(whole, fits, temperatures), 1).join('\n'));
  const ones = score({ beat: [], downbeat }, fits).downbeat;
  console.log(report(`downbeat, ${title}`, ones, temperatures.downbeat).join('\n'));
}

function write(name: ChoiceName, fits: GridFits, temperatures: Temperatures, from: string): void {
  const date = new Date().toISOString().slice(0, 10);
  const short = (numbers: readonly number[]) => numbers.map((v) => Number(v.toPrecision(4)));
  const weights = weightsOf(name, fits, temperatures, {
    id: `${name}-${date}`,
    frontEndId: FRONT_END_ID,
    origin: `${from}; ${settingsOf(name)}; temperature from folds that hold out the maker; npx tsx tests/corpus/train-grid.ts FOLDER --arrangements ${values.arrangements}`,
    cues: name === 'downbeat' ? foldedCueNames(4) : READING_CUES,
  });
  const shipped = {
    ...weights,
    temperature: Number(weights.temperature.toPrecision(3)),
    mean: short(weights.mean),
    scale: short(weights.scale),
    weights: short(weights.weights),
  };
  const file = join(import.meta.dirname, '..', '..', 'src', 'learned', 'weights', `${name}.ts`);
  const source = [
    "import type { LogitWeights } from '../logit.js';",
    '',
    '/** Written by tests/corpus/train-grid.ts. */',
    '// prettier-ignore',
    `export const ${name.toUpperCase()}_WEIGHTS: LogitWeights = ${JSON.stringify(shipped)};`,
    '',
  ];
  writeFileSync(file, source.join('\n'));
}
