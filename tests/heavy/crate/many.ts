import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { outlineOf, queryCrate, type CrateQuery } from '../../../src/crate/index.js';
import { clubWav } from '../../cli/support.js';
import { fillBetween } from '../../corpus/docs.js';
import { markdown } from '../../corpus/tables.js';
import { sampleAnalysis } from '../../support/sample-analysis.js';

const USAGE = `npx tsx tests/heavy/crate/many.ts [--count N] [--docs]     (after npm run build)
  --count N  tracks in the crate (default 1000)
  --docs     write the table of docs/reliability.md; only on a quiet machine`;
/** Work of others in the last minute, in cores, at which a ratio between one core and two still means something. */
const QUIET = 0.5;
/** As the first words of a command: it may use one core only. */
const ONE_CORE = ['taskset', '-c', '0'];

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '1000' },
    docs: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});
if (values.help) console.log(USAGE);
else await main(Number(values.count));

interface Run {
  readonly seconds: number;
  readonly processor: number;
  readonly peak: number;
}

async function main(count: number): Promise<void> {
  if (values.docs && loadavg()[0] > QUIET)
    throw new Error(`The machine is not quiet (load ${loadavg()[0].toFixed(1)}): wait, or leave out --docs.`);
  const root = mkdtempSync(join(tmpdir(), 'barwise-many-'));
  try {
    const [all, pinned, one, two] = ['all', 'pinned', 'one', 'two'].map((name) => join(root, name));
    [all, pinned, one, two].forEach((folder) => mkdirSync(folder));
    for (let i = 0; i < count; i++) writeFileSync(join(all, `${i}.wav`), track(i));
    const part = Math.min(100, Math.floor(count / 5));
    // Every worker begins cold: two at once are given two parts, so that each of the two has as long to get warm.
    [pinned, one, two, two].forEach((folder, f) => {
      for (let i = 0; i < part; i++) renameSync(join(all, `${4 * i + f}.wav`), join(folder, `${4 * i + f}.wav`));
    });
    const core = await crate(pinned, ['--jobs', '1'], ONE_CORE);
    const alone = await crate(one, ['--jobs', '1']);
    const both = await crate(two, ['--jobs', '2']);
    const rest = await crate(all, []);
    const again = await crate(all, []);
    const peakIn = (share: number) => Math.max(0, ...rest.samples.slice(0, Math.ceil(rest.samples.length * share)));
    const times = (run: Run) => ((2 * run.seconds) / both.seconds).toFixed(2);
    const query = queries();
    const rows = [
      ['one track at a time, one core', rate(part, core)],
      ['one track at a time, both cores', rate(part, alone)],
      [
        'two at once, both cores',
        `${rate(2 * part, both)}: ${times(core)} times one core, ${times(alone)} times one at a time`,
      ],
      [
        `the other ${count - 4 * part}, first run`,
        `${rest.seconds.toFixed(0)} s; peak ${megabytes(rest.peak)}, in its first half ${megabytes(peakIn(0.5))}, in its first fifth ${megabytes(peakIn(0.2))}`,
      ],
      [
        'the same, second run',
        `${again.seconds.toFixed(2)} s elapsed, ${again.processor.toFixed(2)} s of processor time`,
      ],
      ['a query of 10,000 tracks', `${query.toFixed(0)} ms, the slowest of five`],
    ];
    const text = [
      `${count} tracks of 15 to 20 s; ${availableParallelism()} cores, Node ${process.versions.node}; \`npx tsx tests/heavy/crate/many.ts --docs\`.`,
      markdown(['what', 'measured'], rows),
    ].join('\n\n');
    console.log(text);
    if (values.docs) fillBetween(new URL('../../../docs/reliability.md', import.meta.url), 'many', text);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

function rate(tracks: number, { seconds }: Run): string {
  return `${(tracks / seconds).toFixed(2)} tracks a second`;
}

/** No two are alike: tempo and length differ. */
function track(i: number): Buffer {
  return clubWav(100 + (i % 60), 8 + (i % 3), 22_050 - Math.floor(i / 60));
}

/** Lists a folder and watches the memory of the process that does. */
function crate(
  folder: string,
  options: readonly string[],
  before: readonly string[] = [],
): Promise<Run & { samples: number[] }> {
  const start = performance.now();
  const words = [...before, process.execPath, 'dist/src/cli/main.js', 'crate', folder, ...options];
  const child = spawn(words[0], words.slice(1), { stdio: 'ignore' });
  const samples: number[] = [];
  let processor = 0;
  const look = setInterval(() => {
    try {
      samples.push(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1] ?? 0) * 1024);
      const [user, system] = readFileSync(`/proc/${child.pid}/stat`, 'utf8').split(') ')[1].split(' ').slice(11, 13);
      processor = (Number(user) + Number(system)) / 100;
    } catch {
      // It has ended, or this is no Linux.
    }
  }, 20);
  return new Promise((resolve, reject) => {
    child.on('close', (code) => {
      clearInterval(look);
      if (code !== 0) return reject(new Error(`The command ended with ${code}.`));
      const seconds = (performance.now() - start) / 1000;
      resolve({ seconds, processor, peak: Math.max(0, ...samples), samples });
    });
  });
}

/** Five queries of ten thousand tracks: the slowest, in milliseconds. */
function queries(): number {
  const outline = outlineOf(sampleAnalysis());
  const tracks = Array.from({ length: 10_000 }, (_, i) => ({
    ...outline,
    source: { ...outline.source, tags: { ...outline.source.tags, title: `Track ${(i * 7919) % 10_000}` } },
    tempo: { ...outline.tempo, bpm: 80 + ((i * 31) % 1000) / 10 },
  }));
  const wanted: CrateQuery[] = [
    { order: 'name' },
    { order: 'tempo', descending: true },
    { tempo: [120, 126], order: 'key' },
    { sections: ['breakdown', 'drop'], order: 'phrases' },
    { phrases: 'odd' },
  ];
  return Math.max(
    ...wanted.map((query) => {
      const start = performance.now();
      queryCrate(tracks, query);
      return performance.now() - start;
    }),
  );
}

function megabytes(bytes: number): string {
  return `${Math.round(bytes / 1e6)} MB`;
}
