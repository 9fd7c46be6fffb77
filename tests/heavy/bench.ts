import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { parseArgs } from 'node:util';
import { fillBetween } from '../corpus/docs.js';
import { markdown } from '../corpus/tables.js';
import { aubioTime, benchFile, medianOf, runOnce, type Run } from './bench-run.js';

const USAGE = `npm run bench -- [--minutes 1,3,6,12] [--cores 1,2] [--runs 3] [--no-references] [--docs]
  Measures processor time beside decoding alone in the same run, median of several.
  --docs  writes the table of docs/speed.md; numbers go to demo/bench/COMMIT.json in any case`;

/** The length that the limits are told for, and what is wanted there, in units of decoding. */
const SIX = 6;

interface Row {
  readonly minutes: number;
  readonly cores: number;
  readonly decoding: number;
  readonly whole: number;
  readonly grid: number;
  readonly form: number;
  readonly wall: number;
  /** Peak bytes of the analysing process, and by how much that is more than what reading alone takes. */
  readonly memory: number;
  readonly memoryAbove: number;
  readonly decoder: number;
}

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '1,3,6,12' },
    cores: { type: 'string', default: '1,2' },
    runs: { type: 'string', default: '3' },
    'no-references': { type: 'boolean', default: false },
    docs: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

if (values.help) console.log(USAGE);
else await main();

async function main(): Promise<void> {
  const list = (text: string) => text.split(',').map(Number);
  const rows: Row[] = [];
  for (const minutes of list(values.minutes)) {
    const file = await benchFile(minutes);
    for (const cores of list(values.cores)) rows.push(await measure(file, minutes, cores, Number(values.runs)));
  }
  const references = values['no-references'] ? null : await beside(await benchFile(SIX));
  const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim();
  const exponent = growth(rows.filter((r) => r.cores === rows[0].cores));
  mkdirSync('demo/bench', { recursive: true });
  writeFileSync(`demo/bench/${commit}.json`, JSON.stringify({ commit, node: process.version, rows, references, exponent }, null, 2)); // prettier-ignore
  const text = report(rows, references, exponent);
  console.log(text);
  if (values.docs) fillBetween(new URL('../../docs/speed.md', import.meta.url), 'bench', text);
}

/** Decoding and analysis in turn, so that what else the machine does falls on both. */
async function measure(file: string, minutes: number, cores: number, runs: number): Promise<Row> {
  const [decode, whole, stages]: [Run[], Run[], Run[]] = [[], [], []];
  for (let r = 0; r < runs; r++) {
    decode.push(await runOnce({ mode: 'decode', file }, cores));
    whole.push(await runOnce({ mode: 'analyse', file }, cores));
    stages.push(await runOnce({ mode: 'stages', file }, cores));
  }
  const memory = medianOf(whole, (r) => r.own);
  return {
    minutes,
    cores,
    decoding: medianOf(decode, (r) => r.processor),
    whole: medianOf(whole, (r) => r.processor),
    grid: medianOf(stages, (r) => r.stages['grid']),
    form: medianOf(stages, (r) => r.stages['form']),
    wall: medianOf(whole, (r) => r.wall),
    memory,
    memoryAbove: memory - medianOf(decode, (r) => r.own),
    decoder: medianOf(whole, (r) => r.largestChild),
  };
}

/** Libraries that find beats alone, on the samples of six minutes. */
async function beside(file: string): Promise<Record<string, number | null>> {
  const seconds = async (mode: 'multifeature' | 'degara') => (await runOnce({ mode, file }, 1)).processor;
  return {
    multifeature: await seconds('multifeature'),
    degara: await seconds('degara'),
    aubio: await aubioTime(file.replace(/mp3$/, 'wav')),
  };
}

/** Slope of log processor time over log length, by least squares: 1 is a straight line. */
function growth(rows: readonly Row[]): number {
  const points = rows.map((r) => [Math.log(r.minutes), Math.log(r.whole)]);
  const mean = (k: number) => points.reduce((sum, p) => sum + p[k], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const up = points.reduce((sum, p) => sum + (p[0] - x) * (p[1] - y), 0);
  return up / points.reduce((sum, p) => sum + (p[0] - x) ** 2, 0);
}

function report(rows: readonly Row[], references: Record<string, number | null> | null, exponent: number): string {
  const two = (v: number) => v.toFixed(2);
  const mb = (v: number) => String(Math.round(v / 1e6));
  const table = markdown(
    ['minutes', 'cores', 'decoding, s', 'whole, s', 'whole ÷ decoding', 'grid ÷ decoding', 'form ÷ decoding', 'elapsed, s', 'memory, MB', 'above reading alone, MB', 'decoder, MB'], // prettier-ignore
    rows.map((r) => [
      String(r.minutes),
      String(r.cores),
      two(r.decoding),
      two(r.whole),
      two(r.whole / r.decoding),
      two(r.grid / r.decoding),
      two(r.form / r.decoding),
      two(r.wall),
      mb(r.memory),
      mb(r.memoryAbove),
      mb(r.decoder),
    ]),
  );
  const six = rows.find((r) => r.minutes === SIX) ?? rows[rows.length - 1];
  const longest = rows.filter((r) => r.cores === six.cores);
  const [first, last] = [longest[0], longest[longest.length - 1]];
  const memoryGrowth = (last.memory - first.memory) / 1e6 / Math.max(1, last.minutes - first.minutes);
  const lines = [
    `Stereo MP3 of a drawn arrangement; processor time, median of ${values.runs} runs in fresh processes, decoding and analysis in turn; Node ${process.versions.node}, ${cpus().length} cores; \`npm run bench -- --docs\`.`,
    table,
  ];
  if (longest.length > 1)
    lines.push(
      `Cost grows with length to the power ${two(exponent)} (1 is a straight line), memory by ${memoryGrowth.toFixed(0)} MB a minute.`,
    );
  if (references) {
    const named = Object.entries(references).filter(([, s]) => s !== null) as [string, number][];
    lines.push(
      markdown(
        ['beats alone, six minutes, decoded', 'processor s', '÷ our whole analysis with decoding'],
        named.map(([name, s]) => [name === 'aubio' ? 'aubiotrack (reads WAV)' : `essentia.js RhythmExtractor2013, ${name}`, two(s), two(s / six.whole)]), // prettier-ignore
      ),
    );
  }
  return lines.join('\n\n');
}
