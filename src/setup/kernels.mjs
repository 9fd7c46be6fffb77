// Compiles the inner loops: AssemblyScript in, WebAssembly out. Run it after a change of their source.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The sources, which the compiler knows under another ending, and what they share. */
const SOURCES = ['loops', 'bars', 'beats', 'tables', 'models', 'pitches', 'tempos'];
const SHARED = ['logs'];
const sourceOf = (name) => new URL(`../signal/kernels/${name}.as`, import.meta.url);
export const KERNELS = new URL('../signal/kernels/loops.wasm', import.meta.url);
/** Memory in pages of 64 kB: 1 MB, and up to 1 GB where an instance is asked for more when it is made. */
const PAGES = '16';
const MOST_PAGES = '16384';

/** The bytes that the sources compile to. */
export async function compileKernels() {
  const asc = await import('assemblyscript/asc');
  let binary;
  const { error, stderr } = await asc.main(
    [
      ...SOURCES.map((name) => `${name}.ts`),
      ...['--outFile', 'loops.wasm', '-O3', '--runtime', 'stub', '--enable', 'simd', '--noAssert'],
      ...['--initialMemory', PAGES, '--maximumMemory', MOST_PAGES],
    ],
    {
      readFile: (name) => textOf(name.replace(/\.ts$/, '')),
      writeFile: (_, contents) => void (binary = contents),
      listFiles: () => [],
    },
  );
  if (error) throw new Error(`The loops do not compile: ${error.message}\n${stderr}`);
  return binary;
}

function textOf(name) {
  return [...SOURCES, ...SHARED].includes(name) ? readFileSync(sourceOf(name), 'utf8') : null;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(KERNELS, await compileKernels());
