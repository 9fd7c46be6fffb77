import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { LogitWeights } from '../../src/learned/index.js';
import { foldedCueNames } from '../../src/rhythm/downbeat-cues.js';
import { READING_CUES } from '../../src/rhythm/reading-cues.js';
import { FRONT_END_ID } from '../../src/signal/index.js';
import { arrangementExamples, HALVES, plainExamples, songExamples, type Example } from './train-examples.js';
import {
  crossValidate,
  fitExamples,
  isLocked,
  report,
  score,
  settingsOf,
  temperatureOf,
  type ChoiceName,
} from './train-folds.js';

const USAGE = `npx tsx tests/corpus/train-grid.ts FOLDER [options]
  Fits the weights of beat and downbeat on the development songs in FOLDER (made by tests/corpus/build), on drawn
  arrangements and on plain rhythms, reports held-out folds, and writes src/learned/weights/.
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
  const arranged = arrangementExamples(Number(values.arrangements), cache);
  const plain = plainExamples();
  train('beat', songs.beat, [...arranged.beat, ...plain.beat], READING_CUES);
  train('downbeat', songs.downbeat, [...arranged.downbeat, ...plain.downbeat], foldedCueNames(4));
}

function train(
  name: ChoiceName,
  songs: readonly Example[],
  arranged: readonly Example[],
  cues: readonly string[],
): void {
  const open = [...songs.filter((e) => !isLocked(e.maker)), ...arranged];
  const held = crossValidate(open, name, 'maker');
  const temperature = temperatureOf(held);
  console.log(report(`${name}, held-out maker`, held, temperature).join('\n'));
  if (values.source) {
    const bySource = crossValidate(open, name, 'source');
    console.log(report(`${name}, held-out source`, bySource, temperature).join('\n'));
  }
  const fit = fitExamples(open, name);
  if (values.locked) {
    const locked = songs.filter((e) => isLocked(e.maker) && e.cut < HALVES);
    console.log(report(`${name}, locked makers`, score(locked, fit), temperature).join('\n'));
  }
  for (const { example, scores } of held) {
    const k = scores.indexOf(Math.max(...scores));
    if (!example.right[k] && example.cut < 2) {
      console.log(
        `  ${name} wrong: ${example.id} cut ${example.cut} ratio ${example.ratios[k].toFixed(3)} score ${example.scores[k].toFixed(2)}`,
      );
    }
  }
  if (values.dry) return;
  const count = new Set(open.filter((e) => e.source !== 'arranged').map((e) => e.id)).size;
  const tracks = (group: string) => new Set(arranged.filter((e) => e.group === group).map((e) => e.id)).size;
  const date = new Date().toISOString().slice(0, 10);
  const short = (numbers: readonly number[]) => numbers.map((v) => Number(v.toPrecision(4)));
  const weights: LogitWeights = {
    id: `${name}-${date}`,
    frontEndId: FRONT_END_ID,
    origin: `${count} development songs (whole, cut at two places${name === 'beat' ? ', and by halves' : ''}) of all but the locked makers, and ${tracks('arranged')} drawn arrangements${name === 'beat' ? ` and ${tracks('plain')} plain rhythms` : ''}; ${settingsOf(name)}; temperature from folds that hold out the maker; npx tsx tests/corpus/train-grid.ts FOLDER --arrangements ${values.arrangements}`,
    temperature: Number(temperature.toPrecision(3)),
    cues,
    mean: short(fit.mean),
    scale: short(fit.scale),
    weights: short(fit.weights),
  };
  const file = join(import.meta.dirname, '..', '..', 'src', 'learned', 'weights', `${name}.ts`);
  const source = [
    "import type { LogitWeights } from '../logit.js';",
    '',
    '/** Written by tests/corpus/train-grid.ts. */',
    '// prettier-ignore',
    `export const ${name.toUpperCase()}_WEIGHTS: LogitWeights = ${JSON.stringify(weights)};`,
    '',
  ];
  writeFileSync(file, source.join('\n'));
}
