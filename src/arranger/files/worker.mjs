// Runs in a worker thread: writes one demo track after another. From the source tree the TypeScript loader comes first.
const fromSource = import.meta.url.endsWith('/src/arranger/files/worker.mjs') && !import.meta.url.includes('/dist/');
if (fromSource) (await import('tsx/esm/api')).register();
const { writeInWorker } = await import(fromSource ? './in-worker.ts' : './in-worker.js');

export default (task) => writeInWorker(task);
