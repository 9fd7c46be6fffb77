// Runs in a worker thread: makes one track of the demo crate. From the source tree the TypeScript loader comes first.
import { existsSync } from 'node:fs';

const fromSource = !existsSync(new URL('./demo-crate.js', import.meta.url));
if (fromSource) (await import('tsx/esm/api')).register();
const { writeDemoCrate } = await import(fromSource ? '../arranger/index.ts' : '../arranger/index.js');

export default async ({ folder, track }) => {
  const [{ file, written }] = await writeDemoCrate(folder, { tracks: [track] });
  return { file, written };
};
