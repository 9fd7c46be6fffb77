import { openAudio } from '../../src/audio/index.js';
import { analyseTrack } from '../../src/track/index.js';
import { processorTime } from './process-tree.js';

/** What the parent asks: read every sample, or analyse the track. */
export interface BenchTask {
  readonly mode: 'decode' | 'analyse';
  readonly file: string;
}

export interface BenchTimes {
  readonly wall: number;
  /** Own and the decoder's. */
  readonly processor: number;
  /** Length of the track in seconds. */
  readonly duration: number;
}

// Started by bench.ts: one task in a fresh process, so that memory and warm-up are those of one file.
process.once('message', (task: BenchTask) => {
  void measure(task).then((times) => {
    process.send?.(times, () => process.disconnect());
  });
});

async function measure({ mode, file }: BenchTask): Promise<BenchTimes> {
  const cpu = processorTime();
  const start = performance.now();
  const duration = mode === 'decode' ? await decode(file) : (await analyseTrack(file)).source.durationSeconds;
  const wall = (performance.now() - start) / 1000;
  // The decoder's own process counts once it has ended.
  await new Promise((resolve) => setTimeout(resolve, 400));
  return { wall, processor: processorTime() - cpu, duration };
}

async function decode(file: string): Promise<number> {
  const { info, source } = await openAudio(file);
  let frames = 0;
  for await (const block of source.blocks()) frames += block[0].length;
  await source.close();
  return frames / info.sampleRate;
}
