import type { ExitCode } from '../exit-codes.js';

/** Gets the exit code of the command that ran. */
export type Done = (code: ExitCode) => void;
