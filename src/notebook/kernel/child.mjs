// Runs cells in a process of its own, which may hang or die. It speaks with its parent over the IPC channel: `run`,
// `complete`, `inspect` and `is-complete` come in; `ready`, what a cell says, `done` and `reply` go out.
import { Worker } from 'node:worker_threads';
import { inspect } from 'node:util';
import { createSession } from './session.mjs';

/** The pipe over which the parent asks for a cell to be broken off that does not listen any more. */
const BREAK_PIPE = 4;
/** How long a kernel stays idle before it loads what charts need, in milliseconds. */
const PAUSE = 200;
/** Folder from which cells import packages. */
const base = process.argv[2];
const send = (message) => process.connected && process.send(message);

process.on('uncaughtException', reportStray);
process.on('unhandledRejection', reportStray);
process.on('disconnect', () => process.kill(process.pid, 'SIGKILL'));
const phase = new Int32Array(new SharedArrayBuffer(4));
const breaker = new Worker(new URL('breaker.mjs', import.meta.url), { workerData: { pipe: BREAK_PIPE, phase } });
breaker.on('error', () => undefined);
breaker.unref();

// A cell that asked would wait for ever: nobody is there to answer.
Object.defineProperty(process, 'stdin', {
  configurable: true,
  get() {
    throw new Error('A cell cannot ask for input: give it a variable, or the notebook a parameter.');
  },
});

let session;
// Whoever interrupts before there is anything to interrupt must not end the process.
process.on('SIGINT', () => session?.interrupt());
session = await createSession(base, send, (now) => Atomics.store(phase, 0, now));
process.on('message', (message) => void handle(message));
send({ kind: 'ready' });
// Later than a first cell that is already waiting: it works or listens while this loads.
setTimeout(() => session.prepare(), PAUSE);

async function handle(message) {
  if (message.kind === 'run') return send({ kind: 'done', ok: await session.run(message) });
  send({ kind: 'reply', id: message.id, content: answer(message) });
}

/** What a person is told while typing. A fault in there must not cost the kernel. */
function answer({ kind, code, position }) {
  try {
    if (kind === 'complete') return session.complete(code, position);
    return kind === 'inspect' ? session.inspect(code, position) : session.isComplete(code);
  } catch {
    return null;
  }
}

/** What fails outside a cell's own run (a promise nobody awaits) is told and does not end the process. */
function reportStray(error) {
  send({ kind: 'stream', name: 'stderr', text: `${error instanceof Error ? String(error) : inspect(error)}\n` });
}
