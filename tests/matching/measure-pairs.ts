/**
 * Plans of a hundred random pairs of arranged tracks, judged by the arranger's truth:
 *
 *   npx tsx tests/matching/measure-pairs.ts FOLDER [FIRST-SEED COUNT]
 *
 * FOLDER keeps sound, truth and analyses, so that a second run takes a minute.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomArrangement, renderArrangement, type ArrangementTruth } from '../../src/arranger/index.js';
import { writeWav } from '../../src/audio/index.js';
import { matchTracks } from '../../src/matching/index.js';
import { analyseTrack, type TrackAnalysis } from '../../src/track/index.js';
import { judgePlan, type PlanVerdict } from './pair-truth.js';

const PAIRS = 100;
/** Irregularities that move the count. */
const COUNTED = /^(added|dropped|odd|drift)/;
const [folder, first = '9000', count = '40'] = process.argv.slice(2);
if (folder === undefined) throw new Error('Give a folder.');
mkdirSync(folder, { recursive: true });

interface Known {
  readonly seed: number;
  readonly truth: ArrangementTruth;
  readonly analysis: TrackAnalysis;
}
const read = <T>(file: string) => JSON.parse(readFileSync(file, 'utf8')) as T;
const known: Known[] = [];
for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
  const base = join(folder, String(seed));
  if (!existsSync(`${base}.truth.json`) || !existsSync(`${base}.wav`)) {
    const { left, right, truth, sampleRate } = renderArrangement(randomArrangement(seed));
    await writeWav(`${base}.wav`, [left, right], sampleRate);
    writeFileSync(`${base}.truth.json`, JSON.stringify(truth));
  }
  if (!existsSync(`${base}.json`)) writeFileSync(`${base}.json`, JSON.stringify(await analyseTrack(`${base}.wav`)));
  known.push({ seed, truth: read(`${base}.truth.json`), analysis: read(`${base}.json`) });
}

const pairs = known
  .flatMap((a) => known.filter((b) => b !== a).map((b) => ({ a, b })))
  .map((pair) => {
    const before = performance.now();
    const match = matchTracks(pair.a.analysis, pair.b.analysis);
    return { ...pair, match, milliseconds: performance.now() - before };
  });
const times = pairs
  .filter(({ match }) => match.plans[0].kind === 'blend')
  .map((p) => p.milliseconds)
  .sort((x, y) => x - y);
let state = 12345; // the draw: Park & Miller 1988
const random = () => (state = (state * 16807) % 2147483647) / 2147483647;
const drawn = pairs
  .filter(({ match }) => match.plans[0].kind === 'blend')
  .map((pair) => ({ pair, at: random() }))
  .sort((x, y) => x.at - y.at)
  .slice(0, PAIRS)
  .map(({ pair }) => pair);
const judged = drawn.map((pair) => ({
  ...pair,
  verdict: judgePlan(pair.a.truth, pair.b.truth, pair.match, pair.match.plans[0], pair.a.analysis.bars),
}));
report('all', judged);
report(
  'of those whose weakest answer is at least 60 % sure',
  judged.filter(({ match }) => (match.plans[0].confidence.value ?? 0) >= 0.6),
);
report(
  'of those without a bar or beat too many or too few and without drift in either',
  judged.filter(({ a, b }) => ![a, b].some(({ truth }) => truth.irregularities.some(({ kind }) => COUNTED.test(kind)))),
);
console.log(
  `a plan: median ${times[times.length >> 1].toFixed(1)} ms, 95 % ${times[Math.floor(times.length * 0.95)].toFixed(1)} ms`,
);
for (const { a, b, match, verdict } of judged) {
  const { start, meet, confidence } = match.plans[0];
  if (verdict.eightBarLine && verdict.onBoundary && verdict.arrival && verdict.silentClashes === 0) continue;
  console.log(
    `${a.seed} + ${b.seed}: start ${start.a.bar}/${start.b.bar}, meet ${meet.a.bar} ${meet.functionA} / ${meet.b.bar} ${meet.functionB},`,
    JSON.stringify(verdict),
    `${confidence.value} ${confidence.subject} ${confidence.deck}`,
  );
}

function report(name: string, list: readonly { readonly verdict: PlanVerdict }[]): void {
  const share = (holds: (v: PlanVerdict) => boolean) => list.filter(({ verdict }) => holds(verdict)).length;
  console.log(
    `${name}: ${list.length} pairs; phrase on phrase ${share((v) => v.phraseOnPhrase)}, on an eight-bar line ${share((v) => v.eightBarLine)},`,
    `on A's section ${share((v) => v.onSection)}, on A's boundary ${share((v) => v.onBoundary)}, B's arrival ${share((v) => v.arrival)},`,
    `without a clash untold ${share((v) => v.silentClashes === 0)}`,
  );
  for (const layer of ['bass', 'voice'] as const) {
    const told = (how: 'surely' | 'perhaps', real: boolean) =>
      share(({ clashes }) => clashes[layer].told === how && clashes[layer].real === real);
    console.log(
      `  ${layer}: two at once in ${share((v) => v.clashes[layer].real)}; told surely ${told('surely', true)} (and in ${told('surely', false)} where there are none),`,
      `as possible ${told('perhaps', true)} (and in ${told('perhaps', false)}), not at all ${share((v) => v.clashes[layer].real && v.clashes[layer].told === 'not')}`,
    );
  }
}
