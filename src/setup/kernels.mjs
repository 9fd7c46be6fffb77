// Compiles the sample loops: AssemblyScript in, WebAssembly out. Run it after a change of their source.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const SOURCE = new URL('../signal/kernels/loops.as', import.meta.url);
export const KERNELS = new URL('../signal/kernels/loops.wasm', import.meta.url);
/** 1 MB of memory that never grows, so that views of it stay valid. */
const PAGES = '16';

/** The bytes that the source compiles to. */
export async function compileKernels() {
  const asc = await import('assemblyscript/asc');
  let binary;
  const { error, stderr } = await asc.main(
    ['loops.ts', '--outFile', 'loops.wasm', '-O3', '--runtime', 'stub', '--enable', 'simd', '--noAssert'].concat([
      '--initialMemory',
      PAGES,
      '--maximumMemory',
      PAGES,
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
