// Cells one after another on tslab: compiled as TypeScript, run in this process, their results drawn by the library.
import Module, { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { inspect } from 'node:util';
import { useOurCompiler } from './compiler.mjs';
import { documentation } from './documentation.mjs';
import { describeFailure } from './failure.mjs';
import { PHASE } from './phase.mjs';
import { prelude } from './prelude.mjs';

const require = createRequire(import.meta.url);
/** What the compiler says of a name that it does not know. */
const UNKNOWN = 'any';
/** Under this name the library finds what the running cell offers: an AbortSignal, and a way to clear its output. */
const CELL = Symbol.for('barwise.cell');

/**
 * @param base folder from which cells import packages
 * @param send takes what a cell says
 * @param setPhase is told what the process does, see PHASE
 */
export async function createSession(base, send, setPhase) {
  const compiler = useOurCompiler(require, setPhase);
  const { createConverter, isCompleteCode } = require('tslab/dist/converter.js');
  const { createExecutor } = require('tslab/dist/executor.js');
  const { JupyterHandlerImpl } = require('tslab/dist/jupyter.js');
  const loading = libraryOf(base);

  const workingFolder = process.cwd();
  process.chdir(base);
  const converters = { node: createConverter({ isJS: false, isBrowser: false }), close: () => undefined };
  process.chdir(workingFolder);

  /** What the running cell has left: the value of its last expression and the failures that were reported. */
  let last;
  let failures = [];
  let cancel = new AbortController();
  const executor = createExecutor(base, converters, {
    log: (value) => (last = { value }),
    error: (...words) => failures.push(words),
  });
  const library = await loading;
  const handler = new JupyterHandlerImpl(executor, false);
  globalThis[CELL] = {
    get signal() {
      return cancel.signal;
    },
    clear: (wait) => send({ kind: 'clear', wait }),
  };
  await run({ code: prelude(library), cell: 0 }, () => undefined);

  async function run({ code, cell }, tell = send) {
    last = undefined;
    failures = [];
    cancel = new AbortController();
    setPhase(PHASE.compiling);
    const compiled = compiler.start(cell, code);
    const writeStream = (name, text) => tell({ kind: 'stream', name, text });
    const writeDisplay = ({ data, metadata, transient }, update) =>
      tell({ kind: 'display', data, metadata: metadata ?? {}, id: transient?.display_id, update });
    try {
      await handler.handleExecuteImpl({ code: compiled }, writeStream, writeDisplay);
      if (last) tell({ kind: 'result', data: await bundleOf(library, await last.value) });
      return true;
    } catch (error) {
      // tslab tells a failed cell by throwing its execution count; what failed it has told before.
      if (failures.length === 0) failures.push([error instanceof Error ? error : new Error('The cell failed.')]);
      tell({ kind: 'error', ...describeFailure(failures, compiler, cell) });
      return false;
    } finally {
      setPhase(PHASE.idle);
    }
  }

  return {
    run,
    /** Loads what only charts need: the first one is not to wait for it. */
    prepare: () => library.charts.prepareDrawing?.(),
    interrupt() {
      cancel.abort();
      executor.interrupt();
    },
    complete(code, position) {
      const { start, end, candidates } = executor.complete(code, position);
      return { start, end, matches: candidates };
    },
    inspect(code, position) {
      const found = executor.inspect(code, position);
      const text = found ? documentation(found) : UNKNOWN;
      return text === UNKNOWN ? null : { text };
    },
    isComplete(code) {
      const { completed, indent } = isCompleteCode(code);
      if (!completed) return { status: 'incomplete', indent };
      return { status: compiler.canParse(code) ? 'complete' : 'invalid' };
    },
  };
}

/**
 * The parts of the library that cells have at hand; a part that does not load is left out. Cells are CommonJS, which
 * cannot require a module that awaits something while it loads; so they are given what has been imported here.
 */
async function libraryOf(base) {
  const fromBase = createRequire(join(base, 'cell.js'));
  const names = ['barwise', 'barwise/charts', 'barwise/reports', 'barwise/notebook'];
  const load = (name) => import(pathToFileURL(fromBase.resolve(name)).href).catch(() => ({}));
  const modules = await Promise.all(names.map(load));
  const loaded = new Map(names.map((name, i) => [name, modules[i]]));
  const { _load } = Module;
  Module._load = (name, ...rest) => loaded.get(name) ?? _load(name, ...rest);
  const [main, charts, reports, notebook] = modules;
  return { main, charts, reports, notebook };
}

/** A result as the front end shows it: drawn by the library where that knows how, else as text. */
async function bundleOf({ notebook }, value) {
  return (
    (await notebook.bundleOf?.(value)) ?? {
      'text/plain': typeof value === 'string' ? value : inspect(value, { depth: 3 }),
    }
  );
}
