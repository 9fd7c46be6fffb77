import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { fillBetween } from './docs.js';
import { fitCalibrations, writeCalibrations } from './held-out/calibrate.js';
import { abstention, confidenceSummary, reliabilityTable } from './held-out/confidence.js';
import { logLook } from './held-out/looks.js';
import { FOLD_ARRANGEMENTS, foldWeights } from './held-out/fold-weights.js';
import type { Fold } from './held-out/grid-folds.js';
import type { Pair } from './held-out/figures.js';
import {
  behind,
  biasTable,
  failureTable,
  figureTable,
  inGroup,
  songFigures,
  type Group,
  type Run,
} from './held-out/tables.js';
import type { Job, Outcome } from './job.js';
import { runJobs } from './pool.js';
import { makerOf, songIds } from './song-front-ends.js';
import { isLocked } from './train-folds.js';

const USAGE = `npx tsx tests/corpus/held-out.ts FOLDER [options]
  Scores every development song in FOLDER (made by tests/corpus/build), whole and cut at the start, by weights that were
  fitted without its maker, and by weights that were fitted without its source; the worse figure of each song counts.
  --grid              tempo, beats and bars only: faster
  --songs A,B         only ids that contain one of these
  --locked "REASON"   the locked makers too; the look is logged in docs/accuracy.md
  --arrangements N    drawn arrangements to fit the grid on (default 40)
  --form-arrangements N   of each kind to fit the form on (default 90; rendered once, which takes 20 minutes)
                      fitted folds are kept in FOLDER until code, truth or counts change
  --processes N       at once (default 2)
  --json FILE         every outcome as JSON
  --from FILE         outcomes of an earlier --json
  --calibrate         write src/learned/weights/calibration.ts from the held-out answers
  --docs              write the tables of docs/accuracy.md`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    grid: { type: 'boolean', default: false },
    songs: { type: 'string' },
    locked: { type: 'string' },
    arrangements: { type: 'string', default: String(FOLD_ARRANGEMENTS.arrangements) },
    'form-arrangements': { type: 'string', default: String(FOLD_ARRANGEMENTS.formArrangements) },
    processes: { type: 'string', default: '2' },
    json: { type: 'string' },
    from: { type: 'string' },
    calibrate: { type: 'boolean', default: false },
    docs: { type: 'boolean', default: false },
  },
});
const DOCS = new URL('../../docs/accuracy.md', import.meta.url);
const FOLDS: readonly Fold[] = ['maker', 'source'];
type Outcomes = Record<Fold, Outcome[]>;

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  await main(positionals[0]);
}

async function main(folder: string): Promise<void> {
  const outcomes = values.from ? (JSON.parse(readFileSync(values.from, 'utf8')) as Outcomes) : await analyseAll(folder);
  if (values.json) writeFileSync(values.json, JSON.stringify(outcomes));
  if (values.locked !== undefined && !values.from) logLook(DOCS, values.locked);
  const run: Run = { maker: pairs(outcomes.maker), source: pairs(outcomes.source) };
  const isOpen = (p: Pair) => !isLocked(makerOf(p.whole.id).maker);
  if (values.calibrate) writeCalibrations(fitCalibrations(run.maker.filter(isOpen)));
  for (const { name, text } of document(run)) {
    console.log(`${text}\n`);
    if (values.docs) fillBetween(DOCS, name, text);
  }
}

async function analyseAll(folder: string): Promise<Outcomes> {
  const say = (what: string) => process.stderr.write(`${what}\n`);
  const wanted = values.songs?.split(',');
  const ids = songIds(folder).filter(
    (id) =>
      (!wanted || wanted.some((w) => id.includes(w))) && (values.locked !== undefined || !isLocked(makerOf(id).maker)),
  );
  const weightsOf = foldWeights(folder, {
    arrangements: Number(values.arrangements),
    formArrangements: values.grid ? null : Number(values['form-arrangements']),
    say,
  });
  const common = { kind: 'song', folder, stages: values.grid ? 'grid' : 'grid,form', references: true } as const;
  const jobs = FOLDS.flatMap((by) =>
    ids.flatMap((id) =>
      [null, 1].map((cutSeed) => ({ by, job: { ...common, id, cutSeed, weights: weightsOf(by, id) } })),
    ),
  );
  say(`Analysing ${ids.length} songs, whole and cut, under both kinds of folds.`);
  const replies = await runJobs(
    jobs.map(({ job }): Job => job),
    Number(values.processes),
    (r) => {
      if (!r.ok) say(`${r.id}: ${r.message}`);
    },
  );
  const failed = replies.filter((r) => !r.ok).length;
  if (failed > 0)
    throw new Error(`${failed} of ${jobs.length} runs broke off: without them the figures would be false.`);
  const of = (by: Fold) => replies.flatMap((r, i) => (r.ok && jobs[i].by === by ? [r.outcome] : []));
  return { maker: of('maker'), source: of('source') };
}

/** Whole songs with their cut copies. */
function pairs(outcomes: readonly Outcome[]): Pair[] {
  return outcomes
    .filter((o) => o.cut === 0)
    .flatMap((whole) => {
      const cut = outcomes.find((o) => o.id === whole.id && o.cut > 0);
      return cut ? [{ whole, cut }] : [];
    });
}

/** The tables, by the name of their place in the document. */
function document(run: Run): { name: string; text: string }[] {
  const isOurs = (p: Pair) => isLocked(makerOf(p.whole.id).maker);
  const locked: Run = { maker: run.maker.filter(isOurs), source: run.source.filter(isOurs) };
  const count = locked.maker.length;
  const seen = count === 0 ? 'without the locked makers' : `${count} of them by locked makers`;
  const date = new Date().toISOString().slice(0, 10);
  const command = `npx tsx tests/corpus/held-out.ts FOLDER${values.grid ? ' --grid' : ''}${count > 0 ? ' --locked REASON' : ''} --docs`;
  const group = (of: Run, name: Group, title: string) => [
    `${title}, ${inGroup(of.maker, name).length} songs: ${behind(of, name)}.`,
    figureTable(of, name),
  ];
  const tables = (of: Run) => [...group(of, 'dance', 'Dance music'), ...group(of, 'other', 'Other music')];
  const join = (...parts: string[]) => parts.join('\n\n');
  return [
    { name: 'held-out', text: join(`${run.maker.length} songs, ${seen}, ${date}; \`${command}\`.`, ...tables(run)) },
    { name: 'held-out-failures', text: failureTable(run) },
    { name: 'held-out-timing', text: biasTable(run.maker) },
    {
      name: 'held-out-confidence',
      text: join(
        `Songs for which tempo, beat or one is "not sure" (under 0.6, whole or cut): ${abstentionText(run)}.`,
        confidenceSummary(run.maker),
        reliabilityTable(run.maker),
      ),
    },
    { name: 'held-out-songs', text: songFigures(run.maker) },
    ...(count === 0 ? [] : [{ name: 'held-out-locked', text: join(`${count} songs, ${date}.`, ...tables(locked)) }]),
  ];
}

function abstentionText({ maker }: Run): string {
  const parts = (['dance', 'other'] as const).map((group) => {
    const { asIs, fitted } = abstention(maker, group);
    return `${group} ${percent(asIs)}, after fitted lines ${percent(fitted)}`;
  });
  return parts.join('; ');
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
