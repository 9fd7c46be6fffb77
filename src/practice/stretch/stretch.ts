import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { BarwiseError, type RunOptions, type Seconds } from '../../units/index.js';
import { RATE, type Stereo } from '../sound/stereo.js';
import { inTime, type TimeMap } from '../sound/time-map.js';

const WORKER = fileURLToPath(new URL('./worker.mjs', import.meta.url));
/** Frames of the result between two points at which the time map is read. */
const BLOCK = 1024;

/**
 * Plays a record through a time map with its pitch kept (key lock), by Signalsmith Stretch (Luff, a phase vocoder with
 * peaks shifted in whole). Where a click lies in the result is within 0.5 ms of the map.
 * @throws BarwiseError `missing-package` where the library cannot be loaded, `aborted`
 */
export async function stretched(
  record: Stereo,
  recordStart: Seconds,
  map: TimeMap,
  frames: number,
  { signal }: RunOptions = {},
): Promise<Stereo> {
  const points = Math.ceil(frames / BLOCK) + 2;
  const reach = Float64Array.from({ length: points }, (_, k) => (inTime(map, (k * BLOCK) / RATE) - recordStart) * RATE);
  const workerData = { channels: [record.left, record.right], frames, reach, block: BLOCK, rate: RATE };
  const worker = new Worker(WORKER, { workerData });
  const stop = () => void worker.terminate();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    const [left, right] = await new Promise<Float32Array[]>((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('error', (cause) =>
        reject(
          new BarwiseError('missing-package', 'Key lock needs the package signalsmith-stretch: run npm install.', {
            cause,
          }),
        ),
      );
      worker.once('exit', () => reject(new BarwiseError('aborted', 'Stopped before the work was done.')));
    });
    return { left, right };
  } finally {
    signal?.removeEventListener('abort', stop);
    await worker.terminate();
  }
}
