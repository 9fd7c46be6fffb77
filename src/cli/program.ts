import { createRequire } from 'node:module';
import { Command, type Option } from 'commander';
import { EXIT_HELP } from './exit-codes.js';
import type { Io } from './io.js';
import { configure } from './program/configure.js';
import type { Done } from './program/done.js';
import { addCorrectCommands } from './program/correct.js';
import { addFindCommands } from './program/find.js';
import { addNotebookCommands } from './program/notebook.js';
import { addPairCommands } from './program/pair.js';
import { addPracticeCommands } from './program/practice.js';
import { addPrintCommands } from './program/print.js';
import { addUpkeepCommands } from './program/upkeep.js';

const { version } = createRequire(import.meta.url)('barwise/package.json') as { version: string };

const EXAMPLES = `Examples:
  barwise analyse music/                      a table of a crate
  barwise analyse track.mp3 --json            everything that was found, as data
  barwise analyse track.mp3 --tempo 87        counted at 87 and not at 174
  barwise explain track.mp3                   what happens on each one, in plain words
  barwise correct track.mp3 --first-one 0.42  what a person says is so from then on
  barwise crate music/ --sort tempo           the crate as a list
  barwise cards music/ --out cards.pdf        a printed card for every track
  barwise lesson track.mp3 --out lesson.pdf   its diagram, for a lesson
  barwise worksheet track.mp3 --out ask.pdf   questions about it, and the answers
  barwise show music/ --out crate.html        a page that plays and counts along
  barwise match one.flac two.flac             where to start the second on the first one's count
  barwise notebook inspect-track -p track=track.mp3 --html
`;

/** The commands. Each loads its part of the program when it is called; `done` gets its exit code. */
export function createProgram(io: Io, done: Done): Command {
  const program = new Command('barwise')
    .description("Finds where a record's beats, bars, groups and phrases fall, and what happens on each one.")
    .version(version, '-V, --version', 'print the version')
    .addHelpText('before', EXAMPLES)
    .addHelpText('after', `\n${EXIT_HELP}`)
    .helpCommand(false)
    .showSuggestionAfterError();
  const groups = [
    addFindCommands,
    addPrintCommands,
    addPairCommands,
    addPracticeCommands,
    addCorrectCommands,
    addNotebookCommands,
    addUpkeepCommands,
  ];
  for (const add of groups) add(program, io, done);
  for (const command of [program, ...program.commands, ...program.commands.flatMap((c) => c.commands)]) {
    configure(command, io);
    // A command's own options come before those it shares with others.
    const shared = new Set(command.options.filter((o) => o.helpGroupHeading));
    (command.options as Option[]).sort((a, b) => Number(shared.has(a)) - Number(shared.has(b)));
  }
  return program;
}
