import { execFile, fork } from 'node:child_process';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs, promisify } from 'node:util';
import { fillBetween } from '../corpus/docs.js';
import { markdown } from '../corpus/tables.js';
import type { BenchTask, BenchTimes } from './bench-child.js';
import { watchMemory, type PeakMemory } from './process-tree.js';

const USAGE = `npx tsx tests/heavy/bench.ts [FILE] [--runs N] [--docs]
  FILE      default: a six-minute MP3 that is made first (demo/bench)
  --runs N  the best of N runs (default 3)
  --docs    write the table of docs/speed.md`;

/** What the design allows. */
const LARGEST_RATIO = 4;
const LARGEST_MEMORY = 900e6;

type Run = BenchTimes & PeakMemory;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    runs: { type: 'string', default: '3' },
    docs: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

if (values.help) console.log(USAGE);
else await main(positionals[0] ?? (await defaultFile()), Number(values.runs));

async function main(file: string, runs: number): Promise<void> {
  const decode = await best('decode', file, runs);
  const analyse = await best('analyse', file, runs);
  const rest = { wall: analyse.wall - decode.wall, processor: analyse.processor - decode.processor };
  const ratio = rest.processor / decode.processor;
  const memory = Math.max(decode.own, analyse.own, decode.largestChild, analyse.largestChild);
  const seconds = (v: number) => v.toFixed(2);
  const megabytes = (v: number) => (v > 0 ? `${Math.round(v / 1e6)} MB` : 'not known here');
  const table = markdown(
    ['six minutes, MP3, stereo', 'elapsed s', 'processor s', 'peak memory', 'of which the decoder'],
    [
      [
        'decoding alone',
        seconds(decode.wall),
        seconds(decode.processor),
        megabytes(decode.own),
        megabytes(decode.largestChild),
      ],
      [
        'the whole analysis',
        seconds(analyse.wall),
        seconds(analyse.processor),
        megabytes(analyse.own),
        megabytes(analyse.largestChild),
      ],
      ['everything beside decoding', seconds(rest.wall), seconds(rest.processor), '', ''],
    ],
  );
  const text = [
    `Track of ${analyse.duration.toFixed(0)} s; best of ${runs} runs in fresh processes; Node ${process.versions.node}, ${cpus().length} cores; \`npx tsx tests/heavy/bench.ts --docs\`.`,
    table,
    `Everything beside decoding costs ${ratio.toFixed(2)} times what decoding costs (allowed: ${LARGEST_RATIO}); ${(analyse.duration / analyse.processor).toFixed(0)} seconds of music a second of processor time. Peak memory of a process: ${megabytes(memory)} (allowed: ${megabytes(LARGEST_MEMORY)}).`,
  ].join('\n\n');
  console.log(text);
  if (values.docs) fillBetween(new URL('../../docs/speed.md', import.meta.url), 'bench', text);
  if (ratio > LARGEST_RATIO || memory > LARGEST_MEMORY) process.exitCode = 1;
}

/** The run with the least processor time: what disturbs a run only ever adds. Memory is the highest of all runs. */
async function best(mode: BenchTask['mode'], file: string, runs: number): Promise<Run> {
  const all: Run[] = [];
  for (let r = 0; r < runs; r++) all.push(await once({ mode, file }));
  const fastest = all.reduce((a, b) => (b.processor < a.processor ? b : a));
  return {
    ...fastest,
    own: Math.max(...all.map((a) => a.own)),
    largestChild: Math.max(...all.map((a) => a.largestChild)),
  };
}

function once(task: BenchTask): Promise<Run> {
  const child = fork(fileURLToPath(sibling('bench-child')), { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
  const memory = watchMemory(child.pid!);
  return new Promise((resolve, reject) => {
    child.once('message', (times) => resolve({ ...(times as BenchTimes), ...memory.stop() }));
    child.once('exit', (code) => {
      memory.stop();
      reject(new Error(`The measured process ended with ${code}.`));
    });
    child.send(task);
  });
}

async function defaultFile(): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, [
    ...process.execArgv,
    fileURLToPath(sibling('bench-file')),
  ]);
  return stdout.trim();
}

/** A file beside this one: `.ts` under tsx, `.js` after the build. */
function sibling(name: string): URL {
  return new URL(`./${name}${import.meta.url.endsWith('.ts') ? '.ts' : '.js'}`, import.meta.url);
}
