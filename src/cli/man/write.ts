import { createRequire } from 'node:module';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { createProgram } from '../program.js';
import { commandTree } from '../tree.js';
import { manPage } from './page.js';

/** Writes the manual page to the file that is named; the build runs it. */
const [file] = process.argv.slice(2);
const silent = { write: () => undefined };
const io = { stdout: silent, stderr: silent, env: {}, signal: new AbortController().signal };
const { version } = createRequire(import.meta.url)('barwise/package.json') as { version: string };
mkdirSync(dirname(file), { recursive: true });
writeFileSync(file, manPage(commandTree(createProgram(io, () => undefined)), version));
