import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { fillBetween } from './docs.js';
import type { Task } from './self-test/judge.js';
import { judgeAll } from './self-test/pool.js';
import { report } from './self-test/report.js';

const USAGE = `npx tsx tests/corpus/self-test.ts [options]
  --count N      this many tracks, half of each set (default 200)
  --first SEED   first seed of the arranger of the demo crate (default 60001)
  --second SEED  first seed of the second band (default 1)
  --keep FOLDER  keep what was heard, so that the next run only counts and judges
  --processes N  default 2
  --json FILE    every verdict as JSON
  --docs         write the tables of docs/accuracy.md`;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    first: { type: 'string', default: '60001' },
    second: { type: 'string', default: '1' },
    keep: { type: 'string' },
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
  const tasks = Array.from({ length: Number(values.count) }, (_, i): Task => {
    const own = i >> 1;
    return i % 2 === 0
      ? { set: 'first', seed: Number(values.first) + own, ...keep }
      : { set: 'second', seed: Number(values.second) + own, ...keep };
  });
  const { verdicts, failed } = await judgeAll(tasks, Number(values.processes), (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${done}/${tasks.length}`);
  });
  const tables = report(verdicts);
  console.log(`${tables}\n\n${failed.length} failed.${failed.map((f) => `\n${f}`).join('')}`);
  if (values.json) writeFileSync(values.json, JSON.stringify(verdicts, null, 1));
  if (!values.docs) return;
  const { count, first, second } = values;
  const head = `${verdicts.length} tracks, ${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/self-test.ts --count ${count} --first ${first} --second ${second} --docs\`; ${failed.length} failed.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'self-test', `${head}\n\n${tables}`);
}
