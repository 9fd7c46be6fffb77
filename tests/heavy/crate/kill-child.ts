import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { analyseFiles } from '../../../src/crate/crate.js';
import { writingSteps } from './steps.js';

// Analyses the files of a folder, names each when it is done, and is killed in the midst of it.
const folder = process.argv[2];
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.wav'))
  .map((name) => join(folder, name));
process.send?.('ready');
await analyseFiles(
  { files, failures: [], notices: [] },
  { workers: 2, onTrack: ({ file }) => process.send?.(file) },
  writingSteps(),
);
process.disconnect();
