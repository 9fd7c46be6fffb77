import type { Command } from 'commander';

/** The options that all commands share which analyse. */
export function analysing(command: Command): Command {
  return command
    .optionsGroup('How tracks are analysed:')
    .option('--tempo-range <low-high>', 'look for tempos in this range only, like 80-100')
    .option('--tempo <bpm>', 'count at the tempo nearest to this one, to settle "87 or 174?"')
    .option('--jobs <n>', 'tracks to analyse at once; default: one a core')
    .option('--shard <i/n>', 'only part i of n of the tracks, to share a crate out over machines')
    .option('--cache-folder <folder>', 'where finished analyses are kept; default: .barwise beside the music')
    .option('--no-cache', 'neither take finished analyses nor keep them')
    .option(
      '--corrections-folder <folder>',
      'where corrections are kept; default: $BARWISE_CORRECTIONS or a folder of your own',
    )
    .option('--no-corrections', 'as if nobody had said anything about the tracks')
    .optionsGroup('');
}

/** The options that all printing commands share. */
export function printing(command: Command): Command {
  return analysing(command)
    .optionsGroup('How printed pieces look:')
    .option('--language <tag>', 'en or de')
    .option('--theme <file.yaml>', 'colours, hatches and words of your own')
    .option('--ink-saving', 'hollow hatches')
    .option('--overwrite', 'replace the file even if Barwise did not make it')
    .optionsGroup('');
}

/** The options of every command that makes sound. */
export function sounding(command: Command): Command {
  return command
    .requiredOption('-o, --out <file>', 'where the sound goes: .wav, .flac or .mp3')
    .option('--loudness <lufs>', 'integrated loudness, at most -9', '-16')
    .option('--overwrite', 'write over a file that is there')
    .addHelpText(
      'after',
      '\nTurn headphones and monitors down before you listen. True peak stays at or under −1 dBTP.\n',
    );
}

/** The options of every command that lays two records on one count. */
export function matching(command: Command): Command {
  return command
    .optionsGroup('How records are matched:')
    .option('--change <record>', 'which record changes its tempo: a, b or both', 'b')
    .option('--fader <percent>', 'range of the tempo fader, like 8 for ±8 %', '8')
    .option('--key-lock', 'the player holds the key when the tempo changes')
    .option('--longest <bars>', 'longest overlap, in bars of A', '64')
    .option('--not-before <bar>', 'B does not start before this bar of A', '1')
    .optionsGroup('');
}

/** Gathers an option that can be repeated. */
export function collect(value: string, before: readonly string[]): string[] {
  return [...before, value];
}
