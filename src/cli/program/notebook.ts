import type { Command } from 'commander';
import type { KernelArguments } from '../commands/kernel.js';
import type { NotebookArguments } from '../commands/notebook.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { collect } from './options.js';

/** Notebooks, and the kernel for them. */
export function addNotebookCommands(program: Command, io: Io, done: Done): void {
  program
    .command('notebook')
    .argument('<name>', 'a notebook of Barwise (inspect-track, …) or an .ipynb file')
    .argument('[jupyter-option...]', 'after --open --: options that Jupyter gets')
    .description('run a notebook without Jupyter and keep what it shows; or open it in Jupyter')
    .option('-p, --parameter <name=value>', 'a value for a parameter of the notebook; can be repeated', collect, [])
    .option('-o, --out <file.ipynb>', 'where the executed notebook goes; default: NAME-run.ipynb, here')
    .option('--html [page.html]', 'a page for reading it as well; default: the same name in .html')
    .option('--lean', 'keep the notebook small: charts as pictures only, no sound; the page has all of it')
    .option('--timeout <seconds>', 'longest time that one cell may take; default: 600')
    .option('--open', 'open it in your Jupyter, with the kernel of Barwise, instead of running it')
    .addHelpText(
      'before',
      'Examples:\n  barwise notebook inspect-track -p track=track.mp3 --html\n  barwise notebook inspect-track --open\n',
    )
    .action(async (name: string, jupyterOptions: string[], options: NotebookArguments) => {
      const { notebookCommand } = await import('../commands/notebook.js');
      done(await notebookCommand(name, options, io, jupyterOptions));
    });

  const kernel = program
    .command('kernel')
    .description('give the kernel for notebooks to Jupyter, or take it back')
    .addHelpText('before', 'Examples:\n  barwise kernel install --user\n  barwise kernel remove --user\n');
  kernel
    .command('install')
    .description('put the kernel into this folder, or with --user where all of your Jupyter finds it')
    .option('--user', 'for all folders of this user')
    .addHelpText('before', 'Example:\n  barwise kernel install --user\n')
    .action(async (options: KernelArguments) => {
      const { kernelInstallCommand } = await import('../commands/kernel.js');
      done(await kernelInstallCommand(options, io));
    });
  kernel
    .command('remove')
    .description('take the kernel away again')
    .option('--user', 'the one for all folders of this user')
    .addHelpText('before', 'Example:\n  barwise kernel remove --user\n')
    .action(async (options: KernelArguments) => {
      const { kernelRemoveCommand } = await import('../commands/kernel.js');
      done(await kernelRemoveCommand(options, io));
    });
  kernel
    .command('serve', { hidden: true })
    .argument('<connection-file>', 'what Jupyter gives the kernel')
    .description('what Jupyter runs')
    .action(async (file: string) => {
      const { kernelServeCommand } = await import('../commands/kernel.js');
      done(await kernelServeCommand(file, io));
    });
}
