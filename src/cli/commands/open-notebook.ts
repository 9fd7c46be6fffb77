import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, delimiter, dirname, join, resolve } from 'node:path';
import {
  findJupyter,
  installKernel,
  packageFolder,
  readNotebook,
  withParameters,
  writeNotebook,
  type Parameters,
} from '../../notebook/index.js';
import { BarwiseError } from '../../units/index.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { say, type Io } from '../io.js';
import { ownCommand } from './kernel.js';

/**
 * `barwise notebook NAME --open`: opens a notebook in the user's Jupyter with our kernel. A notebook of the package is
 * copied here first; a copy that is there already is the user's and is opened as it is.
 */
export async function openNotebook(
  notebook: string,
  options: { readonly out?: string; readonly parameters: Parameters; readonly jupyterOptions: readonly string[] },
  io: Io,
): Promise<ExitCode> {
  const jupyter = findJupyter();
  const file = await copyToOpen(notebook, options, io);
  const folder = await mkdtemp(join(tmpdir(), 'barwise-jupyter-'));
  try {
    await installKernel(folder, ownCommand());
    const path = [folder, process.env['JUPYTER_PATH']].filter(Boolean).join(delimiter);
    say(io, `Opening ${file} in ${basename(jupyter)}; end it with Ctrl-C.`);
    const code = await runInFront(jupyter, [...options.jupyterOptions, basename(file)], {
      cwd: dirname(file),
      env: { ...process.env, JUPYTER_PATH: path },
      signal: io.signal,
    });
    return code === 0 || io.signal.aborted ? EXIT.done : EXIT.nothing;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function copyToOpen(
  notebook: string,
  { out, parameters }: { readonly out?: string; readonly parameters: Parameters },
  io: Io,
): Promise<string> {
  const isOwn = dirname(notebook) === join(packageFolder(), 'notebooks');
  const hasParameters = Object.keys(parameters).length > 0;
  if (!isOwn && out === undefined && !hasParameters) return notebook;
  const file = resolve(out ?? basename(notebook));
  const isThere = existsSync(file) && file !== notebook;
  if (file === notebook && isOwn && !hasParameters) return notebook;
  if (isThere && hasParameters) {
    throw new BarwiseError('bad-option', `${file} is there already: give --out another name, or leave -p out.`, {
      file,
    });
  }
  if (isThere) say(io, `${file} is there already and is opened as it is.`);
  else if (file === notebook) throw new BarwiseError('bad-option', `${file} is left as it is: give --out a name.`);
  else await writeNotebook(file, withParameters(await readNotebook(notebook), parameters));
  return file;
}

function runInFront(
  program: string,
  args: readonly string[],
  options: { readonly cwd: string; readonly env: NodeJS.ProcessEnv; readonly signal: AbortSignal },
): Promise<number> {
  return new Promise((done, reject) => {
    const { cwd, env, signal } = options;
    const child = spawn(program, args, { cwd, env, stdio: 'inherit' });
    // Ctrl-C reaches Jupyter from the terminal as well, which then asks whether it is meant.
    const stop = () => child.kill('SIGTERM');
    signal.addEventListener('abort', stop, { once: true });
    child.once('error', reject);
    child.once('close', (code) => {
      signal.removeEventListener('abort', stop);
      done(code ?? 1);
    });
  });
}
