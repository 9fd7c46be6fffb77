import { fork, type ChildProcess } from 'node:child_process';
import type { Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import type { Seconds } from '../../units/index.js';
import { importBase, requireKernelPackage } from '../home.js';
import type { CellMessage } from '../outputs.js';
import { createRequests, type Answers } from './requests.js';

/** How a cell ended. */
export type CellEnd = 'ok' | 'failed' | 'timed-out' | 'died' | 'aborted';

export interface RunCellOptions {
  /** Number of the cell, from 1, by which errors name it. */
  readonly cell: number;
  /** Longest time the cell may take; by default as long as it wants. */
  readonly timeout?: Seconds | undefined;
  readonly signal?: AbortSignal | undefined;
}

/** A process that runs cells one after another; after `timed-out`, `died` or `aborted` it is gone. */
export interface Kernel extends Answers {
  run(code: string, onMessage: (message: CellMessage) => void, options: RunCellOptions): Promise<CellEnd>;
  /** Stops the running cell, which then ends as `failed`; what the cells before it made is kept. */
  interrupt(): void;
  close(): void;
}

/** How long an interrupted cell may take to stop by itself, and then after it has been broken off. */
const PATIENCE: Seconds = 0.5;
const GRACE: Seconds = 8;

/** How much of what a dying process printed is kept for the error. */
const LAST_WORDS = 2000;

type ChildMessage =
  | CellMessage
  | { readonly kind: 'ready' }
  | { readonly kind: 'done'; readonly ok: boolean }
  | { readonly kind: 'reply'; readonly id: number; readonly content: unknown };

/**
 * Starts the kernel in a child process. Cells import packages from where barwise is installed.
 * @param folder working folder of the cells: relative file names start there
 * @param options.onStray what is said while no cell runs, by what a cell has left behind
 * @throws BarwiseError `missing-package`
 */
export function startKernel(
  folder: string,
  options: { readonly onStray?: (message: CellMessage) => void } = {},
): Kernel {
  requireKernelPackage();
  const child = fork(fileURLToPath(new URL('child.mjs', import.meta.url)), [importBase()], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe', 'ipc', 'pipe'],
    serialization: 'advanced',
    execArgv: ['--no-warnings'],
  });
  const requests = createRequests((message) => child.connected && child.send(message));
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
  const breakPipe = child.stdio[4] as Writable;
  breakPipe.on('error', () => undefined);
  let ready = false;
  child.on('message', (message: ChildMessage) => {
    if (message.kind === 'reply') return requests.settle(message.id, message.content);
    if (message.kind === 'ready') {
      ready = true;
      requests.open();
    }
    if (receive) receive(message);
    else if (message.kind !== 'ready' && message.kind !== 'done') options.onStray?.(message);
  });
  child.on('error', () => undefined);
  child.once('close', () => {
    exited = true;
    requests.close();
  });

  /** Asks the cell to stop, then breaks it off, then ends its process. Gives what takes all that back. */
  const press = (): (() => void) => {
    child.kill('SIGINT');
    const breaking = setTimeout(() => breakPipe.write('!'), PATIENCE * 1000);
    // The signal may come while the cell is still being compiled: then the next one stops it.
    const again = setInterval(() => child.kill('SIGINT'), PATIENCE * 1000);
    const killing = setTimeout(() => child.kill('SIGKILL'), (PATIENCE + GRACE) * 1000);
    return () => {
      clearTimeout(breaking);
      clearInterval(again);
      clearTimeout(killing);
    };
  };
  let relieve: (() => void) | undefined;
  let isCalledOff = false;

  return {
    ...requests.answers,
    run: (code, onMessage, { cell, timeout, signal }) =>
      new Promise<CellEnd>((resolve) => {
        let ending: CellEnd | undefined;
        const settle = (end: CellEnd) => {
          clearTimeout(timer);
          relieve?.();
          relieve = undefined;
          signal?.removeEventListener('abort', abort);
          child.off('close', onClose);
          receive = undefined;
          resolve(end);
        };
        const stop = (why: CellEnd) => {
          ending = why;
          if (why === 'timed-out' && timeout !== undefined) onMessage(timeoutError(timeout));
          relieve ??= press();
        };
        const abort = () => stop('aborted');
        const onClose = () => {
          if (ending === undefined) onMessage(deathError(child, lastWords));
          settle(ending ?? 'died');
        };
        let timer: NodeJS.Timeout | undefined;
        const begin = () => {
          if (isCalledOff) {
            isCalledOff = false;
            onMessage(CALLED_OFF);
            return settle('failed');
          }
          if (timeout !== undefined) timer = setTimeout(() => stop('timed-out'), timeout * 1000);
          child.send({ kind: 'run', code, cell });
        };
        if (exited) return onClose();
        child.once('close', onClose);
        signal?.addEventListener('abort', abort, { once: true });
        receive = (message) => {
          if (message.kind === 'ready') begin();
          else if (message.kind !== 'done') {
            // The error of an interrupted cell says nothing that the reason for interrupting does not.
            if (ending === undefined || message.kind !== 'error') onMessage(message as CellMessage);
          } else if (ending === undefined) settle(message.ok ? 'ok' : 'failed');
          else child.kill('SIGKILL');
        };
        if (ready) begin();
      }),
    interrupt: () => {
      if (!receive) return;
      if (ready) relieve ??= press();
      else isCalledOff = true;
    },
    close: () => {
      child.kill('SIGKILL');
    },
  };
}

/** The error of a cell that is interrupted before the process is there to run it. */
const CALLED_OFF: CellMessage = {
  kind: 'error',
  ename: 'Interrupted',
  evalue: 'The cell was interrupted.',
  traceback: ['The cell was interrupted.'],
};

function timeoutError(timeout: Seconds): CellMessage {
  const evalue = `The cell took longer than ${timeout} s and was stopped.`;
  return { kind: 'error', ename: 'TimeoutError', evalue, traceback: [evalue] };
}

function deathError({ exitCode, signalCode }: ChildProcess, lastWords: string): CellMessage {
  const how = signalCode === null ? `with exit code ${exitCode}` : `by signal ${signalCode}`;
  const evalue = `The process that ran the cell ended ${how}.`;
  return { kind: 'error', ename: 'KernelDied', evalue, traceback: [evalue, ...lastWords.split('\n').filter(Boolean)] };
}
