// `node bundle.mjs OUT.js`: bundles the script of the page into one file, for the build.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { bundleOptions } from './bundle-options.mjs';

const entry = fileURLToPath(new URL('./browser/main.ts', import.meta.url));
await build({ ...bundleOptions(entry), outfile: process.argv[2] });
