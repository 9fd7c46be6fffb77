import { CommanderError } from 'commander';
import { BarwiseError } from '../units/index.js';
import { EXIT, exitCodeOf, type ExitCode } from './exit-codes.js';
import { say, type Io } from './io.js';
import { createProgram } from './program.js';

/** Runs a command line (without `node` and the script) and gives the exit code. Never throws. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = EXIT.done;
  const program = createProgram(io, (result) => (code = result));
  try {
    await program.parseAsync(argv, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
    if (io.env['BARWISE_DEBUG'] && error instanceof Error) io.stderr.write(`${error.stack}\n`);
    if (io.signal.aborted) return interrupted(io);
    if (error instanceof BarwiseError) {
      say(io, error.message);
      return exitCodeOf(error.code);
    }
    const reason = error instanceof Error ? error.message : String(error);
    say(io, `A fault of the program stopped it (${reason}): please report it with what BARWISE_DEBUG=1 prints.`);
    return EXIT.fault;
  }
}

function interrupted(io: Io): ExitCode {
  say(io, 'Stopped; the tracks that were finished are kept and will not be analysed again.');
  return EXIT.interrupted;
}
