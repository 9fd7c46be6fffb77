import type { Command } from 'commander';
import type { CorrectArguments } from '../commands/correct.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { collect } from './options.js';

/** A person's word. */
export function addCorrectCommands(program: Command, io: Io, done: Done): void {
  program
    .command('correct')
    .argument('<file>', 'an audio file')
    .description('say what is so about a track; it is counted so from then on, whatever the file is called')
    .option('--tempo <bpm>', 'it is counted at the tempo nearest to this one')
    .option('--first-one <time>', 'bar 1 and phrase one start here; nothing before is counted')
    .option('--beats-per-bar <n>', 'a bar has so many beats')
    .option('--beat <time>', 'a beat falls here')
    .option('--bar <time>', 'a bar starts here; this and the six that follow can be repeated', collect, [])
    .option('--phrase <time>', 'a phrase starts here', collect, [])
    .option('--not-phrase <time>', 'no phrase starts here', collect, [])
    .option('--section <time[=function]>', 'a section starts here, like 64.2=drop', collect, [])
    .option('--not-section <time>', 'no section starts here', collect, [])
    .option('--event <time=what>', 'a layer enters or leaves here, like "64.2=bass in"', collect, [])
    .option('--not-event <time=what>', 'it does not', collect, [])
    .option('--from <file>', 'take over what a JAMS or MIDI file says about the track')
    .option('--take <what>', 'of --from, only these: tempo, metre, first-one, beats, bars, phrases, sections')
    .option('--offset <seconds>', 'of --from: added to all its times; may be negative')
    .option('--list', 'what has been said about the track')
    .option('--undo [number]', 'take the last one back (all that came with it from a file), or the one of this number')
    .option('--dry-run', 'only show what would change')
    .option('--json', 'what changed, and the new analysis, as JSON')
    .option(
      '--corrections-folder <folder>',
      'where corrections are kept; default: $BARWISE_CORRECTIONS or a folder of your own',
    )
    .addHelpText(
      'before',
      'Times are seconds (64.2) or as on a player (1:04.2).\nExamples:\n  barwise correct track.mp3 --tempo 87\n' +
        '  barwise correct track.mp3 --section 1:04.2=drop --not-event "64.2=voice in"\n  barwise correct track.mp3 --from track.jams --dry-run\n  barwise correct track.mp3 --from tempo-map.mid --take tempo,beats --offset 0.35\n  barwise correct track.mp3 --undo\n',
    )
    .action(async (file: string, options: CorrectArguments) => {
      const { correctCommand } = await import('../commands/correct.js');
      done(await correctCommand(file, options, io));
    });
}
