import { performance } from 'node:perf_hooks';
import { openAudio, toStereo, type AudioBlock } from '../../src/audio/index.js';
import { findForm } from '../../src/form/index.js';
import { createLoudnessMeter } from '../../src/loudness/index.js';
import { findGrid } from '../../src/rhythm/index.js';
import { createFrontEnd, loadFft } from '../../src/signal/index.js';
import { createKeyFinder } from '../../src/tonality/index.js';

const USAGE = 'npx tsx tests/docs/stage-costs.ts FILE   prints what each stage costs, in units of decoding the file';
const RUNS = 3;

/** Elapsed seconds of each stage over a file at 44.1 kHz, in the order in which they run. */
async function measure(file: string): Promise<Map<string, number>> {
  const spent = new Map<string, number>();
  let since = performance.now();
  const lap = (stage: string) => {
    spent.set(stage, (performance.now() - since) / 1000);
    since = performance.now();
  };
  const { source } = await openAudio(file);
  const blocks: AudioBlock[] = [];
  for await (const block of source.blocks()) blocks.push(block.map((samples) => samples.slice()));
  lap('decoding');
  await source.close();
  const meter = createLoudnessMeter(source.sampleRate, source.channels);
  await loadFft();
  const finder = createKeyFinder();
  const builder = createFrontEnd();
  since = performance.now();
  for (const block of blocks) builder.push(...toStereo(block));
  const frontEnd = builder.finish();
  lap('front end');
  for (const block of blocks) meter.push(block);
  meter.finish();
  lap('loudness and true peak');
  for (const block of blocks) finder.push(block[0]);
  await finder.finish();
  lap('key');
  const grid = findGrid(frontEnd);
  lap('tempo, beats, bars');
  findForm(frontEnd, grid);
  lap('layers, phrases, sections');
  return spent;
}

const [file] = process.argv.slice(2);
if (file === undefined) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  for (let run = 0; run < RUNS; run++) {
    const spent = await measure(file);
    const unit = spent.get('decoding')!;
    console.log([...spent].map(([stage, seconds]) => `${stage} ${(seconds / unit).toFixed(2)}`).join('; '));
  }
}
