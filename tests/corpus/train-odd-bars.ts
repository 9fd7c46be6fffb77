import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { fitLogistic, logOdds, type Example, type Logistic } from '../../src/learned/index.js';
import { ODD_BAR_CUES } from '../../src/rhythm/odd-bar-cues.js';
import { arrangedMusic, editedMusic, type OddMusic } from './odd-bars/music.js';
import { heardCandidates, type HeardCandidate } from './odd-bars/hear.js';
import { pieceIds, songIds } from './song-front-ends.js';

const USAGE = `npx tsx tests/corpus/train-odd-bars.ts FOLDER [--dry]
  Fits the score that tells where a bar is longer or shorter, on the development songs in FOLDER and the pieces in
  FOLDER/styled (both made by tests/corpus/build), each whole and with a beat or two cut out or played twice, and on
  arranged tracks; reports held-out folds and writes src/learned/weights/odd-bars.ts.
  --dry   report only`;

const FOLDS = 5;
/** L2 penalty; 1 and 10 were as good. */
const PENALTY = 3;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { dry: { type: 'boolean', default: false } },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}

interface Judged {
  readonly music: OddMusic;
  readonly candidates: readonly HeardCandidate[];
}

function main(corpus: string): void {
  const styled = join(corpus, 'styled');
  const all: Judged[] = [];
  const add = (some: Iterable<OddMusic>) => {
    for (const music of some) all.push({ music, candidates: heardCandidates(music) });
  };
  add(editedMusic('songs', corpus, songIds(corpus)));
  add(editedMusic('played styles', styled, pieceIds(styled)));
  add(arrangedMusic(join(corpus, 'front-ends')));
  report(all);
  if (values.dry) return;
  const told = (value: number) => Number(value.toPrecision(4));
  const { mean, scale, weights, bias } = fitted(all);
  const model = { mean: mean.map(told), scale: scale.map(told), weights: weights.map(told), bias: told(bias) };
  const text = `import type { Logistic } from '../logistic.js';\n\n/** A bar has beats too many or too few. Made by tests/corpus/train-odd-bars.ts. */\nexport const ODD_BAR_WEIGHTS: Logistic & { readonly id: string } = ${JSON.stringify({ id: `odd-bars-${new Date().toISOString().slice(0, 10)}`, ...model })};\n`;
  writeFileSync(new URL('../../src/learned/weights/odd-bars.ts', import.meta.url), text);
  ODD_BAR_CUES.forEach((cue, i) => console.log(`${weights[i].toFixed(2).padStart(6)} ${cue}`));
}

function fitted(some: readonly Judged[]): Logistic {
  const examples = some.flatMap(({ candidates }) =>
    candidates.map(({ cues, right }): Example => ({ cues, right, weight: 1 })),
  );
  return fitLogistic(examples, PENALTY);
}

/** How many odd bars there are, are told and are right, by weights that have not seen the piece. */
function report(all: readonly Judged[]): void {
  const folds = [...new Set(all.map(({ music }) => music.fold))].sort();
  const foldOf = ({ music }: Judged) => folds.indexOf(music.fold) % FOLDS;
  const counts = new Map<string, { there: number; told: number; right: number }>();
  for (let f = 0; f < FOLDS; f++) {
    const model = fitted(all.filter((j) => foldOf(j) !== f));
    for (const { music, candidates } of all.filter((j) => foldOf(j) === f)) {
      const count = counts.get(music.kind) ?? { there: 0, told: 0, right: 0 };
      const told = candidates.filter(({ cues }) => logOdds(model, cues) > 0);
      count.there += music.odd.length;
      count.told += told.length;
      count.right += told.filter(({ right }) => right).length;
      counts.set(music.kind, count);
    }
  }
  for (const [kind, { there, told, right }] of counts)
    console.log(`${kind}: ${there} odd bars, ${told} told, ${right} right, held out`);
}
