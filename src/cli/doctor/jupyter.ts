import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { note, well, type Finding } from './finding.js';

const PATIENCE_MS = 20_000;
const run = promisify(execFile);

/** Whether there is a Jupyter, and whether it knows the kernel. Neither is needed to run a notebook headless. */
export async function checkJupyter(): Promise<Finding[]> {
  const specs = await kernelSpecs();
  if (specs === null) {
    const remedy = 'only needed to edit notebooks; on Debian: apt install jupyter-notebook';
    return [note('Jupyter', 'not found', remedy)];
  }
  return [
    well('Jupyter', 'found'),
    specs.includes('barwise')
      ? well('kernel', 'known to Jupyter')
      : note('kernel', 'not known to Jupyter', 'barwise kernel install'),
  ];
}

/** The names of the kernels that Jupyter knows; `null` without Jupyter. */
async function kernelSpecs(): Promise<string[] | null> {
  try {
    const { stdout } = await run('jupyter', ['kernelspec', 'list', '--json'], { timeout: PATIENCE_MS });
    const { kernelspecs } = JSON.parse(stdout) as { kernelspecs?: Record<string, unknown> };
    return Object.keys(kernelspecs ?? {});
  } catch {
    return null;
  }
}
