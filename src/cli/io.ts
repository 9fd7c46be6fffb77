import { printable } from '../units/index.js';
import { wrapped } from './paragraphs.js';

export { printable };

/** A stream as the commands see it. */
export interface Output {
  write(text: string): unknown;
  readonly isTTY?: boolean | undefined;
  readonly columns?: number | undefined;
}

/** Everything a command touches outside the library: data goes to `stdout`, what is said to a person to `stderr`. */
export interface Io {
  readonly stdout: Output;
  readonly stderr: Output;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly signal: AbortSignal;
}

/** Says a sentence to the person at the terminal; on one, no word is broken at the end of a line. */
export function say(io: Io, sentence: string): void {
  const text = printable(sentence);
  const { isTTY, columns } = io.stderr;
  io.stderr.write(isTTY === true && columns ? wrapped(text, columns) : `${text}\n`);
}

/** Names a file that was written: as it is for another program, so that nothing in it steers a terminal. */
export function nameFile(io: Io, file: string): void {
  io.stdout.write(`${io.stdout.isTTY === true ? printable(file) : file}\n`);
}

/** Whether text on this stream may be set off by colour or weight (no-color.org). */
export function hasStyle(output: Output, env: Io['env']): boolean {
  return output.isTTY === true && !env['NO_COLOR'] && env['TERM'] !== 'dumb';
}
