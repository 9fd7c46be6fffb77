import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { fillBetween } from './docs.js';
import { CHECKED, precisionTable, verdictOn, type Reported } from './checked/verdicts.js';
import { placeInNotes } from './checked/notes.js';
import { reportedOn } from './checked/reported.js';
import { FOLD_ARRANGEMENTS, foldWeights } from './held-out/fold-weights.js';
import { useWeights } from './held-out/weights.js';
import { makerOf, songIds } from './song-front-ends.js';
import { isLocked } from './train-folds.js';

const USAGE = `npx tsx tests/corpus/irregularities.ts FOLDER [options]
  FOLDER       made by tests/corpus/build; every song is heard with weights that have not seen its maker
  --songs A,B  only ids that contain one of these
  --unchecked  print what the notes do at every place that ${CHECKED} does not know yet
  --all        print it for every place
  --docs       write the table of docs/accuracy.md`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    songs: { type: 'string' },
    unchecked: { type: 'boolean', default: false },
    all: { type: 'boolean', default: false },
    docs: { type: 'boolean', default: false },
  },
});

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}

function main(folder: string): void {
  const wanted = values.songs?.split(',') ?? [''];
  const ids = songIds(folder).filter((id) => wanted.some((w) => id.includes(w)) && !isLocked(makerOf(id).maker));
  const say = (what: string) => process.stderr.write(`${what}\n`);
  const weightsOf = foldWeights(folder, { ...FOLD_ARRANGEMENTS, say });
  const reported: Reported[] = [];
  for (const id of ids) {
    useWeights(weightsOf('maker', id));
    const truth = JSON.parse(readFileSync(join(folder, 'truth', `${id}.json`), 'utf8')) as Parameters<typeof placeInNotes>[0]; // prettier-ignore
    for (const item of reportedOn(folder, id)) {
      reported.push(item);
      const known = verdictOn(item);
      if (values.all || (values.unchecked && known === null)) console.log(placeInNotes(truth, item, known));
    }
  }
  const table = precisionTable(reported, values.songs === undefined ? ids : []);
  console.log(`\n${table}`);
  if (values.docs) {
    const head = `${ids.length} songs without the locked makers, heard with weights that have not seen their maker, ${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/irregularities.ts FOLDER --docs\`.`;
    fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'checked-irregularities', `${head}\n\n${table}`);
  }
}
