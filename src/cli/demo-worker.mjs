// Runs in a worker thread: makes one track of the demo crate. From the source tree the TypeScript loader comes first.
const fromSource = import.meta.url.endsWith('/src/cli/demo-worker.mjs') && !import.meta.url.includes('/dist/');
if (fromSource) (await import('tsx/esm/api')).register();
const { writeDemoCrate } = await import(fromSource ? '../arranger/index.ts' : '../arranger/index.js');

export default async ({ folder, track }) => {
  const [{ file, written }] = await writeDemoCrate(folder, { tracks: [track] });
  return { file, written };
};
