import { spawn } from 'node:child_process';
import type { Socket } from 'node:net';
import { fileURLToPath } from 'node:url';
import { BarwiseError, type Hertz } from '../../units/index.js';
import type { DecoderChoice } from '../container.js';
import type { AudioBlock } from '../source.js';
import { createAnswers, type Answer } from './answers.js';
import { createRooms } from './rooms.js';

export type Codec = 'mp3' | 'flac' | 'vorbis' | 'aac';

/** A piece as it was decoded. */
export interface Decoded {
  readonly channels: AudioBlock;
  readonly sampleRate: Hertz;
}

/** A decoding process and the questions it has been asked. */
export interface DecoderProcess {
  readonly pid: number | undefined;
  /** Which decoder runs. Throws `missing-package` when the native one was asked for and cannot be loaded. */
  readonly engine: Promise<'native' | 'wasm'>;
  /**
   * Decodes a whole small file of the codec; answers come in the order of the questions, `null` for what cannot be
   * decoded. Throws BarwiseError `decoder-failed` when the process has died, `aborted` when the signal has fired.
   */
  decode(bytes: Uint8Array, rate: Hertz): Promise<Decoded | null>;
  /** Takes back the arrays of a piece that was decoded, or of a part of it: a later piece will lie in them. */
  giveBack(channels: AudioBlock): void;
  /** Ends the process, at once. */
  close(): void;
}

const WORKER = fileURLToPath(new URL('./worker.mjs', import.meta.url));

/** What brings the native decoder. */
export const NATIVE_PACKAGE = 'the system library libasound.so.2 (Debian: apt install libasound2)';

export interface StartOptions {
  readonly signal?: AbortSignal | undefined;
  /** The program of the process. */
  readonly worker?: string | undefined;
}

/** Starts a decoding process; it ends by itself when this process ends. */
export function startDecoder(
  file: string,
  codec: Codec,
  choice: DecoderChoice,
  { signal, worker = WORKER }: StartOptions = {},
): DecoderProcess {
  const child = spawn(process.execPath, ['--expose-gc', worker, choice, codec], {
    stdio: ['pipe', 'ignore', 'ignore', 'pipe'],
    env: { ...process.env, NODE_OPTIONS: '' },
    windowsHide: true,
  });
  const input = child.stdio[0] as Socket;
  const output = child.stdio[3] as Socket;
  const waiting: { resolve: (answer: Answer) => void; reject: (error: BarwiseError) => void }[] = [];
  let failure: BarwiseError | null = null;

  // only an open question keeps this process alive, so that a source that is dropped unread does not
  const hold = (on: boolean) => [child, input, output].forEach((handle) => (on ? handle.ref() : handle.unref()));
  const ask = () => {
    const promise = new Promise<Answer>((resolve, reject) => {
      if (failure) return reject(failure);
      waiting.push({ resolve, reject });
      hold(true);
    });
    promise.catch(() => undefined); // whoever asked may have stopped waiting
    return promise;
  };
  const fail = (error: BarwiseError) => {
    failure ??= error;
    for (const { reject } of waiting.splice(0)) reject(failure);
  };
  const abort = () => {
    fail(new BarwiseError('aborted', 'Stopped before the work was done.', { file }));
    child.kill('SIGKILL');
  };

  const engine = ask().then(({ text }) => {
    if (text === 'native' || text === 'wasm') return text;
    throw new BarwiseError(
      'missing-package',
      `${file} cannot be decoded by the native decoder, which needs ${NATIVE_PACKAGE}: install it or choose another decoder.`,
      { file, cause: text },
    );
  });
  engine.catch(() => undefined);
  const rooms = createRooms();
  const answers = createAnswers((answer) => {
    waiting.shift()?.resolve(answer);
    if (waiting.length === 0) hold(false);
  }, rooms.take);
  output.on('data', answers);
  input.on('error', () => undefined); // a broken pipe is told by 'close' below
  child.on('error', (cause) => fail(new BarwiseError('decoder-failed', cannotStart(file), { file, cause })));
  child.on('close', (code, killed) => fail(new BarwiseError('decoder-failed', died(file, code, killed), { file })));
  if (signal?.aborted) abort();
  else signal?.addEventListener('abort', abort, { once: true });

  return {
    pid: child.pid,
    engine,
    async decode(bytes, rate) {
      const answer = ask();
      if (!failure) {
        const head = Buffer.alloc(8);
        head.writeUInt32LE(bytes.length, 0);
        head.writeUInt32LE(rate, 4);
        input.write(head);
        input.write(bytes);
      }
      const { channels, sampleRate } = await answer;
      return channels?.length ? { channels, sampleRate } : null;
    },
    giveBack: ([first]) => rooms.giveBack(first.buffer),
    close() {
      signal?.removeEventListener('abort', abort);
      fail(new BarwiseError('decoder-failed', `${file} was closed while it was being decoded.`, { file }));
      child.kill('SIGKILL');
    },
  };
}

function died(file: string, code: number | null, killed: NodeJS.Signals | null): string {
  const how = killed ? `signal ${killed}` : `exit code ${code}`;
  return `The decoder broke down on ${file} (${how}): copy the file again or convert it to WAV.`;
}

function cannotStart(file: string): string {
  return `The decoder for ${file} could not be started: check how many processes the system allows.`;
}
