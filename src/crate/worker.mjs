// Runs in a worker thread: analyses one file after another. From the source tree the TypeScript loader comes first.
import { workerData } from 'node:worker_threads';

const fromSource = !import.meta.url.includes('/dist/') && import.meta.url.endsWith('/src/crate/worker.mjs');
if (fromSource) (await import('tsx/esm/api')).register();
const { analyseInWorker } = await import(fromSource ? './in-worker.ts' : './in-worker.js');

export default (task) => analyseInWorker(task, workerData);
