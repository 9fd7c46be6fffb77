import { existsSync, readdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { packageFolder, runNotebook } from '../../notebook/index.js';
import { BarwiseError } from '../../units/index.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile, NOTEBOOK_KIND, type OutputKind } from '../output-file.js';
import { showProgress } from '../progress.js';

type Value = string | number | boolean | null;

export interface NotebookArguments {
  readonly parameter: readonly string[];
  readonly out?: string;
  readonly html?: string | true;
  readonly open?: boolean;
  readonly timeout?: string;
  readonly lean?: boolean;
}

/** Pages of the notebook runner are written again; a page that somebody wrote by hand is not. */
const HTML_KIND: OutputKind = { ending: '.html', is: (start) => start.includes('name="generator" content="Barwise') };

/** `barwise notebook NAME -p key=value`: runs a notebook without Jupyter. */
export async function notebookCommand(
  name: string,
  options: NotebookArguments,
  io: Io,
  jupyterOptions: readonly string[] = [],
): Promise<ExitCode> {
  const parameters = Object.fromEntries(options.parameter.map(parameter));
  const notebook = findNotebook(name);
  if (options.open === true) {
    const { openNotebook } = await import('./open-notebook.js');
    const out = options.out === undefined ? {} : { out: options.out };
    return openNotebook(notebook, { ...out, parameters, jupyterOptions }, io);
  }
  if (jupyterOptions.length > 0)
    throw new BarwiseError('bad-option', `${jupyterOptions[0]} is for Jupyter: give --open as well, or leave it out.`);
  const timeout = options.timeout === undefined ? {} : { timeout: secondsOf(options.timeout) };
  const out = options.out ?? `${basename(notebook, '.ipynb')}-run.ipynb`;
  if (resolve(out) === notebook) {
    throw new BarwiseError(
      'bad-option',
      `${out} is the notebook itself, which is left as it is: give --out another name.`,
    );
  }
  await checkOutputFile(out, NOTEBOOK_KIND);
  const html = options.html === true ? out.replace(/\.ipynb$/, '.html') : options.html;
  if (html !== undefined) await checkOutputFile(html, HTML_KIND);
  const { onProgress, stop } = showProgress(io);
  const run = {
    notebook,
    out,
    parameters,
    lean: options.lean === true,
    ...timeout,
    ...(html === undefined ? {} : { html }),
  };
  const result = await runNotebook(run, { onProgress, signal: io.signal }).finally(stop);
  for (const file of [result.out, result.html]) if (file !== null) nameFile(io, file);
  if (result.failure === null) return EXIT.done;
  const { cell, name: kind, message } = result.failure;
  say(io, `Code cell ${cell} of ${name} failed (${kind}: ${message}); what was made before it is in ${out}.`);
  return EXIT.nothing;
}

/** A notebook of the package by its name, or a file. */
export function findNotebook(name: string): string {
  const own = join(packageFolder(), 'notebooks', `${name}.ipynb`);
  const file = /^[\w-]+$/.test(name) && existsSync(own) ? own : resolve(name);
  if (existsSync(file)) return file;
  const names = ownNotebooks().join(', ');
  throw new BarwiseError('bad-option', `There is no notebook ${name}: give one of ${names}, or an .ipynb file.`);
}

/** The names of the notebooks of the package. */
function ownNotebooks(): string[] {
  return readdirSync(join(packageFolder(), 'notebooks'))
    .filter((file) => file.endsWith('.ipynb'))
    .map((file) => basename(file, '.ipynb'))
    .sort();
}

function secondsOf(text: string): number {
  const seconds = Number(text);
  if (seconds > 0 && Number.isFinite(seconds)) return seconds;
  throw new BarwiseError('bad-option', `--timeout does not take "${text}": give seconds, like 120.`);
}

/** `key=value`; a value that is JSON (a number, true, null) is taken as such, any other as text. */
function parameter(text: string): [string, Value] {
  const at = text.indexOf('=');
  if (at < 1) throw new BarwiseError('bad-option', `-p does not take "${text}": give name=value.`);
  const [name, value] = [text.slice(0, at), text.slice(at + 1)];
  try {
    const parsed: unknown = JSON.parse(value);
    if (parsed === null || ['string', 'number', 'boolean'].includes(typeof parsed)) return [name, parsed as Value];
  } catch {
    // Text that is not JSON is text.
  }
  return [name, value];
}
