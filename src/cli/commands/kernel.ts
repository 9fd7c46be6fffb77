import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import {
  installKernel,
  jupyterFolder,
  KERNEL_TITLE,
  PROJECT_FOLDER,
  removeKernel,
  serveJupyter,
  type Connection,
} from '../../notebook/index.js';
import { BarwiseError } from '../../units/index.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { say, type Io } from '../io.js';

/** The words by which Jupyter starts this very program. */
export function ownCommand(): string[] {
  return [process.execPath, fileURLToPath(new URL('../main.js', import.meta.url))];
}

export interface KernelArguments {
  readonly user?: boolean;
}

/** `barwise kernel install`: tells Jupyter of the kernel, for this project or for the user. */
export async function kernelInstallCommand({ user }: KernelArguments, io: Io): Promise<ExitCode> {
  const place = await installKernel(jupyterFolder(user ? 'user' : 'project'), ownCommand());
  io.stdout.write(`${place}\n`);
  say(io, `Jupyter can now be given the kernel ${KERNEL_TITLE}.`);
  if (!user) say(io, `Start it from this folder: JUPYTER_PATH=${PROJECT_FOLDER} jupyter notebook`);
  return EXIT.done;
}

/** `barwise kernel remove`: takes it away again. */
export async function kernelRemoveCommand({ user }: KernelArguments, io: Io): Promise<ExitCode> {
  const folder = jupyterFolder(user ? 'user' : 'project');
  const place = await removeKernel(folder);
  say(io, place === null ? `There was no kernel of Barwise in ${folder}.` : `Removed ${place}.`);
  return EXIT.done;
}

/** `barwise kernel serve FILE`: what Jupyter itself runs. It lives until Jupyter ends it. */
export async function kernelServeCommand(connectionFile: string, io: Io): Promise<ExitCode> {
  const connection = await readConnection(connectionFile);
  const kernel = await serveJupyter(connection, process.cwd());
  const aborted = new Promise<void>((resolve) => io.signal.addEventListener('abort', () => resolve(), { once: true }));
  await Promise.race([kernel.ended, aborted]);
  kernel.close();
  return EXIT.done;
}

async function readConnection(file: string): Promise<Connection> {
  try {
    return JSON.parse(await readFile(file, 'utf8')) as Connection;
  } catch (cause) {
    throw new BarwiseError('bad-option', `${file} is no connection file of Jupyter: leave starting the kernel to it.`, {
      file,
      cause,
    });
  }
}
