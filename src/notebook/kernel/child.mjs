// Runs the cells of a notebook in a process of its own, which may hang or die. It speaks with its parent over the IPC
// channel: `run` comes in; `stream`, `display`, `result`, `error` and at last `done` go out.
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { inspect } from 'node:util';

/** Folder from which cells import packages. */
const base = process.argv[2];
const workingFolder = process.cwd();
const require = createRequire(import.meta.url);
const fromBase = createRequire(join(base, 'cell.js'));
const send = (message) => process.connected && process.send(message);

useModernResolution();
const { createConverter } = require('tslab/dist/converter.js');
const { createExecutor } = require('tslab/dist/executor.js');
const { JupyterHandlerImpl } = require('tslab/dist/jupyter.js');

process.chdir(base);
const converters = { node: createConverter({ isJS: false, isBrowser: false }), close: () => undefined };
process.chdir(workingFolder);

/** What the running cell has left: the value of its last expression and the failures that were reported. */
let last;
let failures = [];
const executor = createExecutor(base, converters, {
  log: (value) => (last = { value }),
  error: (...words) => failures.push(words),
});
const handler = new JupyterHandlerImpl(executor, false);

process.on('SIGINT', () => executor.interrupt());
process.on('uncaughtException', reportStray);
process.on('unhandledRejection', reportStray);
process.on('disconnect', () => process.kill(process.pid, 'SIGKILL'));
process.on('message', (message) => void run(message));
send({ kind: 'ready' });

async function run({ code }) {
  last = undefined;
  failures = [];
  const writeStream = (name, text) => send({ kind: 'stream', name, text });
  const writeDisplay = ({ data, metadata, transient }, update) =>
    send({ kind: 'display', data, metadata: metadata ?? {}, id: transient?.display_id, update });
  let ok = true;
  try {
    await handler.handleExecuteImpl({ code }, writeStream, writeDisplay);
    if (last) send({ kind: 'result', data: await bundleOf(await last.value) });
  } catch (error) {
    ok = false;
    if (failures.length === 0) failures.push([isCount(error) ? new Error('The cell failed.') : error]);
    send({ kind: 'error', ...failureOf(failures) });
  }
  send({ kind: 'done', ok });
}

/**
 * TypeScript's resolution that knows the `exports` of a package.json; tslab itself asks for the one before it. The
 * compiler's own exports cannot be written to, so tslab is given a copy of them.
 */
function useModernResolution() {
  const nested = createRequire(require.resolve('tslab'));
  const typescript = nested('@tslab/typescript-for-tslab');
  const moduleResolution = typescript.ModuleResolutionKind.Bundler;
  nested.cache[nested.resolve('@tslab/typescript-for-tslab')].exports = {
    ...typescript,
    createWatchCompilerHost: (files, options, ...rest) =>
      typescript.createWatchCompilerHost(files, { ...options, moduleResolution }, ...rest),
  };
}

/** tslab tells a failed cell by throwing its execution count. */
function isCount(error) {
  return typeof error === 'object' && error !== null && !(error instanceof Error) && 'count' in error;
}

/** A result as the front end shows it: drawn by the library where that knows how, else as text. */
async function bundleOf(value) {
  const { bundleOf: draw } = await import(pathToFileURL(fromBase.resolve('barwise/notebook')).href).catch(() => ({}));
  return (await draw?.(value)) ?? { 'text/plain': typeof value === 'string' ? value : inspect(value, { depth: 3 }) };
}

function failureOf([first, ...others]) {
  const [head] = first;
  if (typeof head === 'string') {
    const lines = [first, ...others].map(([, , line, column, message]) => `line ${line}, column ${column}: ${message}`);
    return { ename: 'TypeScriptError', evalue: String(first.at(-1)), traceback: lines };
  }
  const name = head?.name ?? 'Error';
  const message = head instanceof Error ? head.message : inspect(head);
  return { ename: name, evalue: message, traceback: [`${name}: ${message}`, ...stackOf(head)] };
}

/** The frames that lie in cells; those of the kernel and of packages tell a reader nothing. */
function stackOf(error) {
  const frames = String(error?.stack ?? '')
    .split('\n')
    .slice(1);
  return frames.filter((frame) => frame.includes('evalmachine.')).map((frame) => frame.trimEnd());
}

/** What fails outside a cell's own run (a promise nobody awaits) is told and does not end the process. */
function reportStray(error) {
  send({ kind: 'stream', name: 'stderr', text: `${inspect(error)}\n` });
}
