import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { readTruth, scoreTrack, type Scores } from '../../src/evaluation/index.js';
import { analysed } from './analysed.js';
import { fillBetween } from './docs.js';
import { cachedFrontEnd, makerOf, pieceIds } from './song-front-ends.js';
import { eightBars } from './song.js';
import { interval, markdown } from './tables.js';

const USAGE = `npx tsx tests/corpus/unseen.ts FOLDER [--docs]
  Finds grid and form of the songs of FOLDER/more (made by tests/corpus/build/more_modules.py), which no weights were fitted
  on, and says how often ones, groups and sections are right.`;

/** Fewer sections than this tell little. */
const LEAST_SECTIONS = 3;
/** From this F of the ones on, a song counts as one whose ones are right. */
const RIGHT = 0.9;

interface Heard {
  readonly scores: Scores;
  /** "Every 8 bars" on our own bars. */
  readonly eights: Scores;
  readonly told: boolean;
}

function hear(folder: string, id: string): Heard {
  const json = JSON.parse(readFileSync(join(folder, 'truth', `${id}.json`), 'utf8')) as { sections?: unknown[] };
  const truth = readTruth(json);
  const { said } = analysed(cachedFrontEnd(folder, id, join(folder, 'front-ends')));
  const { 'every 8 bars': eights = said } = eightBars(said);
  return {
    scores: scoreTrack(truth, said),
    eights: scoreTrack(truth, eights),
    told: (json.sections?.length ?? 0) >= LEAST_SECTIONS,
  };
}

function main(folder: string, docs: boolean): void {
  const more = join(folder, 'more');
  const ids = pieceIds(more);
  const all = ids.map((id) => hear(more, id));
  const sure = all.filter((h) => (h.scores.downbeatF ?? 0) >= RIGHT);
  const mean = (some: readonly Heard[], of: (h: Heard) => number | null) => {
    const known = some.map(of).filter((v) => v !== null);
    return known.length > 0 ? interval(known) : '';
  };
  const row = (name: string, some: readonly Heard[], by: (h: Heard) => Scores, of = some.filter((h) => h.told)) => [
    name,
    `${some.length}`,
    mean(some, (h) => by(h).downbeatF),
    mean(of, (h) => by(h).groupF),
    mean(of, (h) => by(h).boundaryHalfBeatF),
    mean(of, (h) => by(h).boundary3F),
  ];
  const table = markdown(
    ['', 'songs', 'downbeat F', 'group starts F', 'sections F, ½ beat', 'sections F, 3 s'],
    [
      row('Barwise, all songs', all, (h) => h.scores),
      row('Barwise, where the ones are right', sure, (h) => h.scores),
      row('every 8 bars, where the ones are right', sure, (h) => h.eights),
    ],
  );
  console.log(table);
  if (!docs) return;
  const makers = new Set(ids.map((id) => makerOf(id).maker)).size;
  const head = `${ids.length} songs from ${makers} packages, ${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/unseen.ts FOLDER --docs\`; groups and sections of the ${all.filter((h) => h.told).length} with three sections or more.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'unseen', `${head}\n\n${table}`);
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { docs: { type: 'boolean', default: false } },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0], values.docs);
}
