// Runs in a worker thread: analyses one file after another. From the source tree the TypeScript loader comes first.
import { existsSync } from 'node:fs';

const fromSource = !existsSync(new URL('./in-worker.js', import.meta.url));
if (fromSource) (await import('tsx/esm/api')).register();
const { analyseInWorker } = await import(fromSource ? './in-worker.ts' : './in-worker.js');

export default analyseInWorker;
