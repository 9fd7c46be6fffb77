import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { fillBetween } from './docs.js';
import { logLook } from './held-out/looks.js';
import type { Job, Outcome, Stages } from './job.js';
import { runJobs } from './pool.js';
import { makerOf, songIds } from './song-front-ends.js';
import { byGroup, confidenceTable, groupTable, songTable } from './tables.js';
import { isLocked } from './train-folds.js';

const USAGE = `npx tsx tests/corpus/run.ts FOLDER [options]
  FOLDER          made by tests/corpus/build
  --cut           copies cut at a seeded place in the first seconds, beside the whole songs
  --songs A,B     only ids that contain one of these
  --stages LIST   grid or grid,form: on front ends kept in FOLDER, not on files (default: the whole pipeline)
  --limit N       only the first N songs
  --references    essentia.js and aubio beside ours (kept in FOLDER)
  --json FILE     every score as JSON
  --from FILE     scores of an earlier --json instead of a new run
  --locked REASON the locked makers too; the look is logged in docs/accuracy.md
  --docs          write the tables of docs/accuracy.md`;

const DOCS = new URL('../../docs/accuracy.md', import.meta.url);

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cut: { type: 'boolean', default: false },
    songs: { type: 'string' },
    stages: { type: 'string', default: 'all' },
    limit: { type: 'string' },
    references: { type: 'boolean', default: false },
    json: { type: 'string' },
    from: { type: 'string' },
    locked: { type: 'string' },
    docs: { type: 'boolean', default: false },
  },
});

if (positionals.length !== 1 || !['all', 'grid', 'grid,form'].includes(values.stages)) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  await main(positionals[0]);
}

async function main(folder: string): Promise<void> {
  const { outcomes, failed } = values.from
    ? { outcomes: JSON.parse(readFileSync(values.from, 'utf8')) as Outcome[], failed: 0 }
    : await analyseAll(folder);
  const whole = outcomes.filter((o) => o.cut === 0);
  const cut = outcomes.filter((o) => o.cut > 0);
  for (const [name, part] of [
    ['Whole songs', whole],
    ['Cut at the start', cut],
  ] as const) {
    if (part.length > 0) console.log(`\n## ${name}\n\n${songTable(part)}\n\n${groupTable(byGroup(part), false)}`);
  }
  console.log(`\n## Confidence\n\n${confidenceTable(outcomes.flatMap((o) => o.judgements))}`);
  console.log(`\n${failed} failed. ${speed(outcomes)}`);
  if (values.json) writeFileSync(values.json, JSON.stringify(outcomes, null, 1));
  if (values.docs) fillBetween(DOCS, 'songs', document(whole, cut));
}

async function analyseAll(folder: string): Promise<{ outcomes: Outcome[]; failed: number }> {
  const wanted = values.songs?.split(',');
  if (values.locked !== undefined) logLook(DOCS, values.locked);
  const ids = songIds(folder).filter(
    (id) =>
      (!wanted || wanted.some((w) => id.includes(w))) && (values.locked !== undefined || !isLocked(makerOf(id).maker)),
  );
  const chosen = ids.slice(0, values.limit ? Number(values.limit) : undefined);
  const common = { kind: 'song', folder, stages: values.stages as Stages, references: values.references } as const;
  const jobs = chosen.flatMap((id): Job[] => [
    { ...common, id, cutSeed: null },
    ...(values.cut ? [{ ...common, id, cutSeed: 1 }] : []),
  ]);
  const replies = await runJobs(jobs, 2, (r, done) =>
    progress(done, jobs.length, r.ok ? r.outcome.id : `${r.id}: ${r.message}`),
  );
  const outcomes = replies.flatMap((r) => (r.ok ? [r.outcome] : []));
  return { outcomes, failed: jobs.length - outcomes.length };
}

function progress(done: number, total: number, what: string): void {
  if (process.stderr.isTTY || what.includes(':')) process.stderr.write(`${done}/${total} ${what}\n`);
}

function speed(outcomes: readonly Outcome[]): string {
  const audio = outcomes.reduce((a, o) => a + o.duration, 0);
  const used = outcomes.reduce((a, o) => a + o.seconds, 0);
  return `${(audio / used).toFixed(0)} seconds of music a second of processor time.`;
}

function document(whole: readonly Outcome[], cut: readonly Outcome[]): string {
  const options = [values.cut ? ' --cut' : '', values.references ? ' --references' : ''].join('');
  const part = (title: string, outcomes: readonly Outcome[]) =>
    outcomes.length === 0 ? [] : [title, groupTable(byGroup(outcomes), true)];
  return [
    `${Math.max(whole.length, cut.length)} songs, ${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/run.ts FOLDER${options} --docs\`. Means with 95 % bootstrap intervals; times and tempo errors are medians over songs.`,
    ...part('Whole songs:', whole),
    ...part('Cut at a random place in the first seconds:', cut),
  ].join('\n\n');
}
