import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { BarwiseError } from '../../units/index.js';

/** Name by which Jupyter and notebooks know the kernel. @experimental */
export const KERNEL_NAME = 'barwise';
/** Name of the kernel as people see it. @experimental */
export const KERNEL_TITLE = 'Barwise (TypeScript)';

/** Folder of a project that Jupyter is told to look into, with JUPYTER_PATH. @experimental */
export const PROJECT_FOLDER = '.jupyter';

/** Where a kernel can be put: for this project, or for the user in all of Jupyter. @experimental */
export type KernelScope = 'project' | 'user';

/**
 * Jupyter's data folder of a scope; kernels are in `kernels/NAME` in it.
 * @experimental
 * @param project folder of the project
 */
export function jupyterFolder(scope: KernelScope, project = process.cwd()): string {
  if (scope === 'project') return resolve(project, PROJECT_FOLDER);
  const { JUPYTER_DATA_DIR: own, XDG_DATA_HOME: xdg, APPDATA: windows } = process.env;
  if (own) return own;
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Jupyter');
  if (process.platform === 'win32' && windows) return join(windows, 'jupyter');
  return join(xdg || join(homedir(), '.local', 'share'), 'jupyter');
}

/**
 * What Jupyter starts.
 * @experimental
 * @param command of Barwise itself, as a list of words
 */
export function kernelSpec(command: readonly string[]): object {
  return {
    argv: [...command, 'kernel', 'serve', '{connection_file}'],
    display_name: KERNEL_TITLE,
    language: 'typescript',
    interrupt_mode: 'message',
    metadata: { made_by: KERNEL_NAME },
  };
}

/**
 * Writes the kernel's description and nothing else; gives the folder it is in.
 * @experimental
 * @throws BarwiseError `cannot-write`, or `bad-option` when another program's kernel has that name
 */
export async function installKernel(folder: string, command: readonly string[]): Promise<string> {
  const place = join(folder, 'kernels', KERNEL_NAME);
  if ((await ownerOf(place)) === 'other') throw foreign(place);
  try {
    await mkdir(place, { recursive: true });
    await writeFile(join(place, 'kernel.json'), JSON.stringify(kernelSpec(command), null, 2) + '\n');
  } catch (cause) {
    throw new BarwiseError(
      'cannot-write',
      `The kernel could not be written to ${place}: check that the folder is yours.`,
      {
        file: place,
        cause,
      },
    );
  }
  return place;
}

/**
 * Takes the kernel away again; gives the folder it was in, or null when there was none.
 * @experimental
 * @throws BarwiseError `cannot-write`, or `bad-option` when another program's kernel has that name
 */
export async function removeKernel(folder: string): Promise<string | null> {
  const place = join(folder, 'kernels', KERNEL_NAME);
  const owner = await ownerOf(place);
  if (owner === 'other') throw foreign(place);
  if (owner === null) return null;
  try {
    await rm(place, { recursive: true });
  } catch (cause) {
    throw new BarwiseError('cannot-write', `The kernel in ${place} could not be removed: check that it is yours.`, {
      file: place,
      cause,
    });
  }
  return place;
}

async function ownerOf(place: string): Promise<'barwise' | 'other' | null> {
  try {
    const spec = JSON.parse(await readFile(join(place, 'kernel.json'), 'utf8')) as { metadata?: { made_by?: string } };
    return spec.metadata?.made_by === KERNEL_NAME ? 'barwise' : 'other';
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? null : 'other';
  }
}

function foreign(place: string): BarwiseError {
  return new BarwiseError('bad-option', `The kernel in ${place} was not made by Barwise: move it away first.`, {
    file: place,
  });
}
