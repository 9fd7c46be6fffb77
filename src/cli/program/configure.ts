import { Help, type Command, type Option } from 'commander';
import type { Io } from '../io.js';

/** Where a command writes, and how it says what is wrong with a command line. */
export function configure(command: Command, io: Io): void {
  command
    .helpCommand(false)
    .helpOption('-h, --help', 'print this help')
    .configureHelp({ optionDescription, subcommandTerm: (c) => c.name() });
  command.exitOverride().configureOutput({
    writeOut: (text) => io.stdout.write(text),
    writeErr: (text) => io.stderr.write(text),
    outputError: (text, write) => write(usageSentence(text, command)),
    getOutHelpWidth: () => io.stdout.columns ?? 80,
    getErrHelpWidth: () => io.stderr.columns ?? 80,
    getOutHasColors: () => false,
    getErrHasColors: () => false,
  });
}

/** As commander says it, but for what an option that can be repeated begins with: nothing. */
function optionDescription(option: Option): string {
  return Help.prototype.optionDescription.call(new Help(), option).replace(/ ?\(default: \[\]\)$/, '');
}

/** What is wrong with the command line, and where to read how it should be. */
function usageSentence(text: string, command: Command): string {
  const what = text
    .replace(/^error: /, '')
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/\.$/, '');
  const name = command.parent ? `${command.parent.name()} ${command.name()}` : command.name();
  return `${what.charAt(0).toUpperCase()}${what.slice(1)}: see ${name} --help.\n`;
}
