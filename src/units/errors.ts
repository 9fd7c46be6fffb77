/**
 * Everything that can be wrong with what a user hands in. The set is closed: a new kind of trouble gets a new code here,
 * a sentence where it is thrown and a line in docs/errors.md.
 * @public
 */
export const ERROR_CODES = [
  'file-missing',
  'file-unreadable',
  'file-empty',
  'not-audio',
  'unsupported-format',
  'damaged',
  'too-short',
  'too-long',
  'silent',
  'no-steady-beat',
  'decoder-failed',
  'bad-option',
  'contradiction',
  'cannot-write',
  'missing-package',
  'aborted',
] as const;
/** One of `ERROR_CODES`; docs/errors.md says what each means and what to do. @public */
export type ErrorCode = (typeof ERROR_CODES)[number];

/** An error that a user can do something about. `message` is one sentence: what, which file, what to do. @public */
export class BarwiseError extends Error {
  override readonly name = 'BarwiseError';
  readonly code: ErrorCode;
  readonly file: string | undefined;

  constructor(code: ErrorCode, message: string, options: { file?: string; cause?: unknown } = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.code = code;
    this.file = options.file;
  }
}
