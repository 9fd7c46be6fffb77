import { readdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { fillBetween } from './docs.js';
import { SETS, type SetName } from './self-test/drawn.js';
import type { Task } from './self-test/judge.js';
import { judgeAll } from './self-test/pool.js';
import { report } from './self-test/report.js';

const USAGE = `npx tsx tests/corpus/self-test.ts [options]
  --count N      this many tracks, half of each set (default 200)
  --first SEED   first seed of the arranger of the demo crate (default 60001)
  --second SEED  first seed of the second band (default 1)
  --keep FOLDER  keep what was heard, so that the next run only counts and judges
  --kept         every track that KEEP holds, whatever its seed
  --processes N  default 2
  --json FILE    every verdict as JSON
  --docs         write the tables of docs/accuracy.md`;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    first: { type: 'string', default: '60001' },
    second: { type: 'string', default: '1' },
    keep: { type: 'string' },
    kept: { type: 'boolean', default: false },
    processes: { type: 'string', default: '2' },
    json: { type: 'string' },
    docs: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

if (values.help) console.log(USAGE);
else await main();

async function main(): Promise<void> {
  const keep = values.keep === undefined ? {} : { keep: values.keep };
  const seeds = { first: Number(values.first), second: Number(values.second) };
  const drawn = Array.from({ length: Number(values.count) }, (_, i): Task => {
    const set = SETS[i % SETS.length];
    return { set, seed: seeds[set] + (i >> 1), ...keep };
  });
  const tasks = values.kept && values.keep ? keptTasks(values.keep) : drawn;
  const { verdicts, failed } = await judgeAll(tasks, Number(values.processes), (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${done}/${tasks.length}`);
  });
  const tables = report(verdicts);
  console.log(`${tables}\n\n${failed.length} failed.${failed.map((f) => `\n${f}`).join('')}`);
  if (values.json) writeFileSync(values.json, JSON.stringify(verdicts, null, 1));
  if (!values.docs) return;
  const command = values.kept
    ? '--keep FOLDER --kept'
    : `--count ${values.count} --first ${values.first} --second ${values.second}`;
  const drawnFrom = SETS.map(
    (set) => `${set} set ${ranges(verdicts.filter((v) => v.set === set).map((v) => v.seed))}`,
  ).join('; ');
  const head = `${verdicts.length} tracks, ${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/self-test.ts ${command} --docs\`; ${failed.length} failed. Seeds: ${drawnFrom}.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'self-test', `${head}\n\n${tables}`);
}

function keptTasks(keep: string): Task[] {
  return readdirSync(keep).flatMap((name): Task[] => {
    const [, set, seed] = /^(first|second)-(\d+)\..*\.json$/.exec(name) ?? [];
    return set ? [{ set: set as SetName, seed: Number(seed), keep }] : [];
  });
}

/** Numbers as ranges: 1–3, 7. */
function ranges(numbers: readonly number[]): string {
  const sorted = [...numbers].sort((a, b) => a - b);
  const starts = sorted.filter((n, i) => n !== sorted[i - 1] + 1);
  const ends = sorted.filter((n, i) => n + 1 !== sorted[i + 1]);
  return starts.map((start, i) => (start === ends[i] ? `${start}` : `${start}–${ends[i]}`)).join(', ');
}
