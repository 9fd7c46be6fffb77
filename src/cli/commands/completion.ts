import type { Command } from 'commander';
import { BarwiseError } from '../../units/index.js';
import { bashCompletion } from '../completion/bash.js';
import { fixedChoices, SHELLS, type Shell } from '../completion/choices.js';
import { fishCompletion } from '../completion/fish.js';
import { zshCompletion } from '../completion/zsh.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import type { Io } from '../io.js';
import { commandTree } from '../tree.js';

const MAKE = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion } as const;

/** `barwise completion SHELL`: prints what makes the shell complete commands, options and words. */
export function completionCommand(shell: string, program: Command, io: Io): ExitCode {
  const found = SHELLS.find((s): s is Shell => s === shell);
  if (found === undefined)
    throw new BarwiseError('bad-option', `There is no completion for "${shell}": give ${SHELLS.join(', ')}.`);
  io.stdout.write(MAKE[found](commandTree(program), fixedChoices()));
  return EXIT.done;
}
