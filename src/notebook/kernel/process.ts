import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Seconds } from '../units/index.js';
import { importBase, requireKernelPackage } from './home.js';
import type { CellMessage } from './outputs.js';

/** How a cell ended. */
export type CellEnd = 'ok' | 'failed' | 'timed-out' | 'died' | 'aborted';

export interface RunCellOptions {
  readonly timeout: Seconds;
  readonly signal?: AbortSignal | undefined;
}

/** A process that runs cells one after another; after `timed-out`, `died` or `aborted` it is gone. */
export interface Kernel {
  run(code: string, onMessage: (message: CellMessage) => void, options: RunCellOptions): Promise<CellEnd>;
  close(): void;
}

/** How long an interrupted cell may take to stop before its process is ended. */
const GRACE: Seconds = 2;

/** How much of what a dying process printed is kept for the error. */
const LAST_WORDS = 2000;

type ChildMessage = CellMessage | { readonly kind: 'ready' } | { readonly kind: 'done'; readonly ok: boolean };

/**
 * Starts the kernel in a child process. Cells import packages from where barwise is installed.
 * @param folder working folder of the cells: relative file names start there
 * @throws BarwiseError `missing-package`
 */
export function startKernel(folder: string): Kernel {
  requireKernelPackage();
  const child = fork(fileURLToPath(new URL('kernel-child.mjs', import.meta.url)), [importBase()], {
    cwd: folder,
    silent: true,
    serialization: 'advanced',
    execArgv: ['--no-warnings'],
  });
  let receive: ((message: ChildMessage) => void) | undefined;
  let exited = false;
  let lastWords = '';
  // What the process writes past the cell's own streams: native code, its children, its death.
  const overhear = (name: 'stdout' | 'stderr') => (text: string) => {
    lastWords = (lastWords + text).slice(-LAST_WORDS);
    receive?.({ kind: 'stream', name, text });
  };
  child.stdout?.setEncoding('utf8').on('data', overhear('stdout'));
  child.stderr?.setEncoding('utf8').on('data', overhear('stderr'));
  let ready = false;
  child.on('message', (message: ChildMessage) => {
    receive?.(message);
    ready ||= message.kind === 'ready';
  });
  child.on('error', () => undefined);
  child.once('close', () => (exited = true));

  return {
    run: (code, onMessage, { timeout, signal }) =>
      new Promise<CellEnd>((resolve) => {
        let ending: CellEnd | undefined;
        const settle = (end: CellEnd) => {
          clearTimeout(timer);
          clearTimeout(grace);
          signal?.removeEventListener('abort', abort);
          child.off('close', onClose);
          receive = undefined;
          resolve(end);
        };
        const stop = (why: CellEnd) => {
          ending = why;
          if (why === 'timed-out') onMessage(timeoutError(timeout));
          child.kill('SIGINT');
          grace = setTimeout(() => child.kill('SIGKILL'), GRACE * 1000);
        };
        const abort = () => stop('aborted');
        const onClose = () => {
          if (ending === undefined) onMessage(deathError(child, lastWords));
          settle(ending ?? 'died');
        };
        let grace: NodeJS.Timeout | undefined;
        let timer: NodeJS.Timeout | undefined;
        const begin = () => {
          timer = setTimeout(() => stop('timed-out'), timeout * 1000);
          child.send({ code });
        };
        if (exited) return onClose();
        child.once('close', onClose);
        signal?.addEventListener('abort', abort, { once: true });
        receive = (message) => {
          if (message.kind === 'ready') begin();
          else if (message.kind !== 'done') {
            // The error of an interrupted cell says nothing that the reason for interrupting does not.
            if (ending === undefined || message.kind !== 'error') onMessage(message);
          } else if (ending === undefined) settle(message.ok ? 'ok' : 'failed');
          else child.kill('SIGKILL');
        };
        if (ready) begin();
      }),
    close: () => {
      child.kill('SIGKILL');
    },
  };
}

function timeoutError(timeout: Seconds): CellMessage {
  const evalue = `The cell took longer than ${timeout} s and was stopped.`;
  return { kind: 'error', ename: 'TimeoutError', evalue, traceback: [evalue] };
}

function deathError({ exitCode, signalCode }: ChildProcess, lastWords: string): CellMessage {
  const how = signalCode === null ? `with exit code ${exitCode}` : `by signal ${signalCode}`;
  const evalue = `The process that ran the cell ended ${how}.`;
  return { kind: 'error', ename: 'KernelDied', evalue, traceback: [evalue, ...lastWords.split('\n').filter(Boolean)] };
}
