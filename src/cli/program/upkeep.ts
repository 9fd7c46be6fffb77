import type { Command } from 'commander';
import type { DoctorArguments } from '../commands/doctor.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';

/** The demo, a look at the installation, completion in the shell. */
export function addUpkeepCommands(program: Command, io: Io, done: Done): void {
  program
    .command('doctor')
    .argument('[path...]', 'folders whose caches to look into')
    .description('check that everything is there that Barwise needs, and say what to do where it is not')
    .option('--tidy', 'delete cached analyses and leftovers that no run will ever read again')
    .option('--cache-folder <folder>', 'where finished analyses are kept; default: .barwise beside the music')
    .option('--json', 'what was found, as JSON')
    .addHelpText('before', 'Examples:\n  barwise doctor\n  barwise doctor music/ --tidy\n')
    .action(async (paths: string[], options: DoctorArguments) => {
      const { doctorCommand } = await import('../commands/doctor.js');
      done(await doctorCommand(paths, options, io));
    });

  program
    .command('demo')
    .description('make the demo crate, analyse it, and print and show all of it')
    .option('--folder <folder>', 'where everything goes', 'demo')
    .addHelpText('before', 'Example:\n  barwise demo --folder try-it-out\n')
    .action(async (options: { folder: string }) => {
      const { demoCommand } = await import('../commands/demo.js');
      done(await demoCommand(options, io));
    });

  program
    .command('completion')
    .argument('<shell>', 'bash, zsh or fish')
    .description('print what makes your shell complete commands, options and words with the Tab key')
    .addHelpText(
      'before',
      'Examples:\n  source <(barwise completion bash)\n  source <(barwise completion zsh)\n  barwise completion fish > ~/.config/fish/completions/barwise.fish\n',
    )
    .action(async (shell: string) => {
      const { completionCommand } = await import('../commands/completion.js');
      done(completionCommand(shell, program, io));
    });
}
