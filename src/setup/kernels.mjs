// Compiles the sample loops: AssemblyScript in, WebAssembly out. Run it after a change of their source.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const SOURCE = new URL('../signal/kernels/loops.as', import.meta.url);
export const KERNELS = new URL('../signal/kernels/loops.wasm', import.meta.url);
/** Memory in pages of 64 kB: 1 MB, and up to 128 MB where an instance is asked for more when it is made. */
const PAGES = '16';
const MOST_PAGES = '2048';

/** The bytes that the source compiles to. */
export async function compileKernels() {
  const asc = await import('assemblyscript/asc');
  let binary;
  const { error, stderr } = await asc.main(
    ['loops.ts', '--outFile', 'loops.wasm', '-O3', '--runtime', 'stub', '--enable', 'simd', '--noAssert'].concat([
      '--initialMemory',
      PAGES,
      '--maximumMemory',
      MOST_PAGES,
    ]),
    {
      readFile: (name) => (name === 'loops.ts' ? readFileSync(SOURCE, 'utf8') : null),
      writeFile: (_, contents) => void (binary = contents),
      listFiles: () => [],
    },
  );
  if (error) throw new Error(`The sample loops do not compile: ${error.message}\n${stderr}`);
  return binary;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(KERNELS, await compileKernels());
