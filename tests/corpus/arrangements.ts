import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { demoCrate } from '../../src/arranger/index.js';
import { fillBetween } from './docs.js';
import type { Job, Outcome } from './job.js';
import { runJobs } from './pool.js';
import { byGroup, confidenceTable, groupTable, hitTable, songTable } from './tables.js';

const USAGE = `npx tsx tests/corpus/arrangements.ts [options]
  --count N     this many random arrangements (default 50; 0 for the demo crate alone)
  --seed N      the first of their seeds (default 1)
  --demo        the nine tracks of the demo crate too
  --json FILE   every score as JSON
  --docs        write the tables of docs/accuracy.md`;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '50' },
    seed: { type: 'string', default: '1' },
    demo: { type: 'boolean', default: false },
    json: { type: 'string' },
    docs: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

if (values.help) console.log(USAGE);
else await main(Number(values.count), Number(values.seed), values.demo);

async function main(count: number, seed: number, demo: boolean): Promise<void> {
  const jobs: Job[] = [
    ...(demo ? demoCrate().map((_, index): Job => ({ kind: 'demo', index })) : []),
    ...Array.from({ length: count }, (_, i): Job => ({ kind: 'arrangement', seed: seed + i })),
  ];
  const replies = await runJobs(jobs, 2, (r, done) => {
    if (process.stderr.isTTY || !r.ok)
      process.stderr.write(`${done}/${jobs.length} ${r.ok ? r.outcome.id : `${r.id}: ${r.message}`}\n`);
  });
  const outcomes = replies.flatMap((r) => (r.ok ? [r.outcome] : []));
  const isDemo = (_: Outcome, i: number) => jobs[i].kind === 'demo';
  const crate = replies.flatMap((r, i) => (r.ok && isDemo(r.outcome, i) ? [r.outcome] : []));
  const drawn = outcomes.filter((o) => !crate.includes(o));
  for (const [name, part] of [
    ['Demo crate', crate],
    ['Random arrangements', drawn],
  ] as const) {
    if (part.length > 0)
      console.log(`\n## ${name}\n\n${songTable(part)}\n\n${groupTable(byGroup(part), false)}\n\n${hits(part)}`);
  }
  console.log(
    `\n${confidenceTable(outcomes.flatMap((o) => o.judgements))}\n\n${replies.length - outcomes.length} failed.`,
  );
  if (values.json) writeFileSync(values.json, JSON.stringify(outcomes, null, 1));
  if (!values.docs) return;
  const file = new URL('../../docs/accuracy.md', import.meta.url);
  if (crate.length > 0) fillBetween(file, 'demo', `${songTable(crate)}\n\n${hits(crate)}`);
  if (drawn.length > 0) {
    const head = `${drawn.length} arrangements, \`npx tsx tests/corpus/arrangements.ts --count ${count} --seed ${seed} --docs\`.`;
    fillBetween(
      file,
      'arrangements',
      [head, groupTable(byGroup(drawn), true), hits(drawn), confidenceTable(drawn.flatMap((o) => o.judgements))].join(
        '\n\n',
      ),
    );
  }
}

function hits(outcomes: readonly Outcome[]): string {
  return hitTable([
    { name: 'irregularities (same kind within half a bar)', hits: outcomes.flatMap((o) => o.irregularities ?? []) },
    { name: 'layers entering and leaving (within half a bar)', hits: outcomes.flatMap((o) => o.layers ?? []) },
  ]);
}
