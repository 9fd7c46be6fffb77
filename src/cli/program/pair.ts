import type { Command } from 'commander';
import type { MatchArguments } from '../commands/match.js';
import type { OrderArguments } from '../commands/order.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { analysing, collect, matching } from './options.js';

/** Two records, and a whole evening of them. */
export function addPairCommands(program: Command, io: Io, done: Done): void {
  matching(
    analysing(
      program.command('match').argument('<a>', 'the record that plays').argument('<b>', 'the one that comes in'),
    ),
  )
    .description("say where to start B on A's count, so that phrases line up and the big moments meet")
    .option('--plans <n>', 'how many plans', '5')
    .option('-o, --out <sheet.pdf>', 'the best plan as a transition sheet')
    .option('--language <tag>', 'en or de', 'en')
    .option('--json', 'everything as data')
    .addHelpText(
      'before',
      'Examples:\n  barwise match one.flac two.flac\n  barwise match one.flac two.flac --change both --key-lock\n',
    )
    .action(async (a: string, b: string, options: MatchArguments) => {
      const { matchCommand } = await import('../commands/match.js');
      done(await matchCommand(a, b, options, io));
    });

  matching(analysing(program.command('order').argument('<path...>', 'folders of audio files, or files')))
    .description('put a crate in a running order: small steps of tempo and key, good plans, your wishes')
    .option('--start <track>', 'this one first: a title or a part of a file name')
    .option('--end <track>', 'this one last')
    .option(
      '--before <this < that>',
      'one before another, like "slack water < night bus"; can be repeated',
      collect,
      [],
    )
    .option('--max-step <bpm>', 'at most so many BPM from one to the next')
    .option('--shape <shape>', 'how loudness and density go: rise, fall, arc or valley')
    .option('-o, --out <sheets.pdf>', 'a transition sheet for every step')
    .option('--language <tag>', 'en or de', 'en')
    .option('--json', 'everything as data')
    .addHelpText(
      'before',
      'Example:\n  barwise order music/ --start opener --shape arc --max-step 4 --out sheets.pdf\n',
    )
    .action(async (paths: string[], options: OrderArguments) => {
      const { orderCommand } = await import('../commands/order.js');
      done(await orderCommand(paths, options, io));
    });
}
