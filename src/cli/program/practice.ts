import type { Command } from 'commander';
import type { CountArguments, DrillArguments, RehearseArguments } from '../commands/practice.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { analysing, matching, sounding } from './options.js';

/** Practice audio. */
export function addPracticeCommands(program: Command, io: Io, done: Done): void {
  const practice = program
    .command('practice')
    .description('make practice audio: count-along, rehearsals, drills for the ear')
    .addHelpText(
      'before',
      'Examples:\n  barwise practice count track.flac --bars 33-64 --times 4 --out count.mp3\n  barwise practice rehearse one.flac two.flac --out mix.mp3\n  barwise practice drill ahead --out ahead.wav\n',
    );
  sounding(analysing(practice.command('count').argument('<file>', 'an audio file')))
    .description('the track with clicks: the one of a group, of a bar, and other beats all sound different')
    .option('--bars <first-last>', 'only these bars, like 33-64')
    .option('--times <n>', 'how often they are played', '1')
    .option('--lead-in <bars>', 'bars that are clicked before', '1')
    .option('--clicks <percent>', 'level of the clicks', '50')
    .option('--no-track', 'clicks alone')
    .option('--spoken <language>', 'the number of the bar is spoken on its one: en or de')
    .addHelpText('before', 'Example:\n  barwise practice count track.flac --bars 33-64 --times 4 --out count.mp3\n')
    .action(async (file: string, options: CountArguments) => {
      const { practiceCountCommand } = await import('../commands/practice.js');
      done(await practiceCountCommand(file, options, io));
    });
  sounding(
    matching(
      analysing(
        practice.command('rehearse').argument('<a>', 'the record that plays').argument('<b>', 'the one that comes in'),
      ),
    ),
  )
    .description('a plan of barwise match as sound, right or off by a beat, a bar, a group or a phrase')
    .option('--plan <n>', 'which plan', '1')
    .option('--fade <shape>', 'swap (the basses are swapped), blend, or both (both at full level)', 'swap')
    .option('--clicks <percent>', "level of clicks on A's count", '0')
    .option('--around <bars>', 'bars of A before and of B after', '8')
    .option('--contrast <how>', 'right, or B late by a beat, bar, group or phrase', 'right')
    .addHelpText(
      'before',
      'Examples:\n  barwise practice rehearse one.flac two.flac --out mix.mp3\n  barwise practice rehearse one.flac two.flac --contrast bar --out off.mp3\n',
    )
    .action(async (a: string, b: string, options: RehearseArguments) => {
      const { practiceRehearseCommand } = await import('../commands/practice.js');
      done(await practiceRehearseCommand(a, b, options, io));
    });
  sounding(
    matching(
      analysing(
        practice
          .command('drill')
          .argument('<name>', 'the-one, ahead or phrase-matched')
          .argument('[file...]', 'one file, none, or two'),
      ),
    ),
  )
    .description('questions for the ear, and a sheet of answers beside the sound')
    .option('--seed <n>', 'the same number asks the same questions', '1')
    .option('--html', 'a page beside the sound that plays the questions, takes the answers by keys and keeps the score')
    .addHelpText(
      'before',
      'Examples:\n  barwise practice drill the-one track.flac --out one.mp3\n  barwise practice drill ahead --out ahead.wav --html\n',
    )
    .action(async (name: string, files: string[], options: DrillArguments) => {
      const { practiceDrillCommand } = await import('../commands/practice.js');
      done(await practiceDrillCommand(name, files, options, io));
    });
}
