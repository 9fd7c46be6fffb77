import type { CrateResult } from '../crate/index.js';
import type { ErrorCode } from '../units/index.js';

/** What the command tells the shell. */
export const EXIT = { done: 0, fault: 1, usage: 2, nothing: 3, some: 4, interrupted: 130 } as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** As it stands in the help. */
export const EXIT_HELP = `Exit codes:
  0    all done
  1    a fault of the program
  2    wrong usage
  3    nothing could be analysed, or the result could not be written
  4    some files could not be analysed; the others are done
  130  interrupted`;

/** The exit code for an error that ended the whole command. */
export function exitCodeOf(code: ErrorCode): ExitCode {
  if (code === 'aborted') return EXIT.interrupted;
  return code === 'bad-option' ? EXIT.usage : EXIT.nothing;
}

/** The exit code for a crate. A part of one may have got no track, and then nothing is wrong. */
export function exitCodeFor({ tracks, failures }: CrateResult<unknown>): ExitCode {
  if (failures.some((f) => f.code === 'internal')) return EXIT.fault;
  if (failures.length === 0) return EXIT.done;
  return tracks.length > 0 ? EXIT.some : EXIT.nothing;
}
