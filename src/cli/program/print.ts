import type { Command } from 'commander';
import type { AnalysisArguments } from '../arguments.js';
import type { CardArguments } from '../commands/cards.js';
import type { LessonArguments } from '../commands/lesson.js';
import type { WorksheetArguments } from '../commands/worksheet.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { analysing, printing } from './options.js';

/** What is printed or shown on a page. */
export function addPrintCommands(program: Command, io: Io, done: Done): void {
  printing(program.command('cards').argument('<path...>', 'audio files, or folders of them'))
    .description('print a structure card for every track, as PDF')
    .requiredOption('-o, --out <file.pdf>', 'where the cards go')
    .option('--paper <paper>', 'A6, 3x5in, 4x6in, A5 or 12in (goes into the sleeve of a record)', 'A6')
    .option('--layout <sheet>', 'lay the cards out on A4 or Letter, with marks to cut along, backs behind their fronts')
    .option('--order <order>', 'sheet: one sheet after the other; stack: the cut piles lie in order')
    .option('--bleed <mm>', 'print so many millimetres beyond the trimmed edge')
    .option('--index <order>', 'sort by tempo, key or name, and put an index before the cards')
    .option('--no-back', 'the ladder only, without the words behind it')
    .addHelpText(
      'before',
      'Examples:\n  barwise cards music/ --out cards.pdf\n  barwise cards music/ --layout A4 --index tempo --out crate.pdf\n',
    )
    .action(async (paths: string[], options: CardArguments) => {
      const { cardsCommand } = await import('../commands/cards.js');
      done(await cardsCommand(paths, options, io));
    });

  printing(program.command('lesson').argument('<path...>', 'one audio file, or two to compare'))
    .description('make the diagram of a track for a lesson, or one that sets two side by side')
    .requiredOption('-o, --out <file>', 'where the diagram goes: .pdf, .svg or .png')
    .option('--paper <paper>', 'A4, A3, Letter, lying; or 16:9, a slide', 'A4')
    .option('--resolution <dpi>', 'pixels to the inch of a PNG, 50 to 600; default: 150')
    .addHelpText(
      'before',
      'Examples:\n  barwise lesson track.mp3 --paper 16:9 --out slide.png\n  barwise lesson a.mp3 b.mp3 --paper A3 --out compared.pdf\n',
    )
    .action(async (paths: string[], options: LessonArguments) => {
      const { lessonCommand } = await import('../commands/lesson.js');
      done(await lessonCommand(paths, options, io));
    });

  printing(program.command('worksheet').argument('<path...>', 'audio files, or folders of them'))
    .description('print a worksheet for every track: a ladder to fill in and questions, and the answer key')
    .requiredOption('-o, --out <file.pdf>', 'where the worksheets go')
    .option('--paper <paper>', 'A4 or Letter', 'A4')
    .option('--level <n>', '1: layers and sections; 2: phrases; 3: counting, planning ahead', '1')
    .option('--questions <n>', 'most questions on a sheet, 1 to 6')
    .option('--variant <n>', 'another number asks for other layers, phrases and bars')
    .option('--no-key', 'without the answers')
    .addHelpText('before', 'Example:\n  barwise worksheet track.mp3 --level 2 --out worksheet.pdf\n')
    .action(async (paths: string[], options: WorksheetArguments) => {
      const { worksheetCommand } = await import('../commands/worksheet.js');
      done(await worksheetCommand(paths, options, io));
    });

  analysing(program.command('show').argument('<path...>', 'audio files, or folders of them'))
    .description('make a page that plays tracks, counts along and lights up their ladders')
    .option('-o, --out <page.html>', 'where the page goes', 'barwise.html')
    .option('--title <text>', 'name of the crate on the page')
    .addHelpText('before', 'Example:\n  barwise show music/ --out crate.html\n')
    .action(async (paths: string[], options: AnalysisArguments & { out: string; title?: string }) => {
      const { showCommand } = await import('../commands/show.js');
      done(await showCommand(paths, options, io));
    });
}
