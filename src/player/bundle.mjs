// `node bundle.mjs FOLDER`: bundles the script of every page into one file each, for the build.
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { bundleOptions } from './bundle-options.mjs';

const SCRIPTS = { 'browser.js': './browser/main.ts', 'drill-browser.js': './browser/drill/main.ts' };

for (const [name, source] of Object.entries(SCRIPTS)) {
  const entry = fileURLToPath(new URL(source, import.meta.url));
  await build({ ...bundleOptions(entry), outfile: join(process.argv[2], name) });
}
