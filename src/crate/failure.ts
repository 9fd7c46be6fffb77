import { BarwiseError, type ErrorCode } from '../units/index.js';

/** A file that could not be analysed. `internal` is a fault of the program; every other code is the file's. @public */
export interface CrateFailure {
  readonly file: string;
  readonly code: ErrorCode | 'internal';
  /** One sentence: what, which file, what to do. */
  readonly message: string;
  /** Where a fault of the program arose, for a report of it. */
  readonly stack?: string;
}

/** What went wrong with a file, as plain data. */
export function asFailure(file: string, error: unknown): CrateFailure {
  if (error instanceof BarwiseError) return { file, code: error.code, message: error.message };
  const cause = error instanceof Error ? error : new Error(String(error));
  if (cause.name === 'CrateFault') return { file, code: 'internal', message: cause.message, ...stackOf(cause) };
  return {
    file,
    code: 'internal',
    message: `${file} made the program fail (${oneLine(cause.message)}): please report it; the other files are not affected.`,
    ...stackOf(cause),
  };
}

/** The failure as an error again, for a caller in another thread. */
export function asError({ file, code, message, stack }: CrateFailure): Error {
  if (code !== 'internal') return new BarwiseError(code, message, { file });
  return Object.assign(new Error(message), { name: 'CrateFault', ...(stack === undefined ? {} : { stack }) });
}

function stackOf({ stack }: Error): { stack?: string } {
  return stack === undefined ? {} : { stack };
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim().replace(/\.$/, '');
}
