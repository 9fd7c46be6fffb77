import { openAudio, toStereo } from '../../src/audio/index.js';
import { findForm } from '../../src/form/index.js';
import { findGrid } from '../../src/rhythm/index.js';
import { referenceBeats, type BeatMethod } from '../../src/tonality/index.js';
import { analyseTrack, hearTrack } from '../../src/track/index.js';
import { processorTime } from './process-tree.js';

/** What the parent asks: read every sample, analyse the track, analyse it stage by stage, or have a library find its beats. */
export interface BenchTask {
  readonly mode: 'decode' | 'analyse' | 'stages' | BeatMethod;
  readonly file: string;
}

export interface BenchTimes {
  readonly wall: number;
  /** Seconds of processor time, own and the decoder's. A library's beats: without the decoding. */
  readonly processor: number;
  /** The same for each stage, where they were asked for. */
  readonly stages: Readonly<Record<string, number>>;
}

// Started by bench.ts: one task in a fresh process, so that memory and warm-up are those of one file.
process.once('message', (task: BenchTask) => {
  void measure(task).then((times) => {
    process.send?.(times, () => process.disconnect());
  });
});

async function measure({ mode, file }: BenchTask): Promise<BenchTimes> {
  const stages: Record<string, number> = {};
  const mono = mode === 'multifeature' || mode === 'degara' ? await monoOf(file) : null;
  // The decoder's own process counts once it has ended.
  if (mono) await pause();
  const cpu = processorTime();
  const start = performance.now();
  if (mono) await referenceBeats(mono, mode as BeatMethod);
  else if (mode === 'decode') await decode(file);
  else if (mode === 'analyse') await analyseTrack(file);
  else await inStages(file, stages);
  const wall = (performance.now() - start) / 1000;
  if (!mono) await pause();
  return { wall, processor: processorTime() - cpu, stages };
}

function pause(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 400));
}

async function inStages(file: string, stages: Record<string, number>): Promise<void> {
  let since = processorTime();
  const lap = (stage: string) => {
    const now = processorTime();
    stages[stage] = now - since;
    since = now;
  };
  const heard = await hearTrack(file);
  await pause();
  lap('decoding, front end, loudness, key');
  const grid = findGrid(heard.frontEnd);
  lap('grid');
  findForm(heard.frontEnd, grid);
  lap('form');
}

async function decode(file: string): Promise<void> {
  const { source } = await openAudio(file);
  for await (const block of source.blocks()) void block;
  await source.close();
}

async function monoOf(file: string): Promise<Float32Array> {
  const { source } = await openAudio(file);
  const blocks: Float32Array[] = [];
  for await (const block of source.blocks()) {
    const [left, right] = toStereo(block);
    blocks.push(left.map((l, i) => (l + right[i]) / 2));
  }
  await source.close();
  const mono = new Float32Array(blocks.reduce((sum, b) => sum + b.length, 0));
  let at = 0;
  for (const block of blocks) {
    mono.set(block, at);
    at += block.length;
  }
  return mono;
}
