import type { Command } from 'commander';
import type { AnalysisArguments } from '../arguments.js';
import type { CrateArguments } from '../commands/crate.js';
import type { ExplainArguments } from '../commands/explain.js';
import type { ExportArguments } from '../commands/export.js';
import type { Done } from './done.js';
import type { Io } from '../io.js';
import { analysing } from './options.js';

/** What is found, shown on the screen or given to other programs. */
export function addFindCommands(program: Command, io: Io, done: Done): void {
  analysing(program.command('analyse').argument('<path...>', 'audio files, or folders of them'))
    .description('print tempo, key, phrases, irregularities and doubt of tracks')
    .option('--json', 'everything as JSON: one track, or {"tracks", "failures"}')
    .addHelpText(
      'before',
      "Examples:\n  barwise analyse music/ | sort -t $'\\t' -k 4 -n\n  barwise analyse a.wav b.flac --tempo-range 80-100\n",
    )
    .action(async (paths: string[], options: AnalysisArguments & { json?: boolean }) => {
      const { analyseCommand } = await import('../commands/analyse.js');
      done(await analyseCommand(paths, options, io));
    });

  analysing(program.command('explain').argument('<path...>', 'audio files, or folders of them'))
    .description('tell a track in plain words: what happens on each one, and where it leaves its pattern')
    .option('--counts', 'bar by bar: time, count, phrase, section, what happens')
    .option('--language <tag>', 'en or de', 'en')
    .option('--json', 'the same as data')
    .addHelpText('before', 'Examples:\n  barwise explain track.mp3\n  barwise explain track.mp3 --counts | less\n')
    .action(async (paths: string[], options: ExplainArguments) => {
      const { explainCommand } = await import('../commands/explain.js');
      done(await explainCommand(paths, options, io));
    });

  analysing(program.command('crate').argument('<path...>', 'folders of audio files, or files'))
    .description('list a crate: filter and sort it; what is new in it is analysed first')
    .option('--bpm <low-high>', 'only these tempos, like 120-126, 120- or 124')
    .option('--key <key>', 'only this key, like "A minor"')
    .option('--length <low-high>', 'only these lengths, like 4:00-7:30')
    .option('--regular', 'only tracks without an irregularity')
    .option('--odd', 'only tracks with one or more')
    .option('--sections <functions>', 'only tracks with these sections in this order, like breakdown,drop')
    .option(
      '--sort <order>',
      'name, tempo, key (round the circle of fifths), length, phrases or loudness; default: as the files',
    )
    .option('--reverse', 'the other way round')
    .option('--json', 'everything the list knows, as JSON')
    .option('--csv', 'as CSV for a spreadsheet')
    .option('--watch', 'stay, and print a line for every track that comes or changes')
    .addHelpText(
      'before',
      'Examples:\n  barwise crate music/ --bpm 120-126 --sort key\n  barwise crate music/ --odd --csv > odd.csv\n',
    )
    .action(async (paths: string[], options: CrateArguments) => {
      const { crateCommand } = await import('../commands/crate.js');
      done(await crateCommand(paths, options, io));
    });

  analysing(program.command('export').argument('<path...>', 'audio files, or folders of them'))
    .description('write what was found in open formats, for other programs')
    .requiredOption('-f, --format <format>', 'jams, midi (a file for every track), csv or jsonl (a line for every row)')
    .option('--table <table>', 'of csv and jsonl: beats, bars, phrases, sections, events or irregularities', undefined)
    .option(
      '-o, --out <place>',
      'a folder for jams and midi (default: here), a file for csv and jsonl (default: the screen)',
    )
    .addHelpText(
      'before',
      'Examples:\n  barwise export music/ --format midi --out counts/\n  barwise export music/ --format csv --table sections --out sections.csv\n',
    )
    .action(async (paths: string[], options: ExportArguments) => {
      const { exportCommand } = await import('../commands/export.js');
      done(await exportCommand(paths, options, io));
    });

  analysing(
    program
      .command('evaluate')
      .argument('<estimates>', 'an audio file, a finished analysis (JSON) or JAMS; or a folder of them')
      .argument('<truths>', 'what is true: JAMS or a truth file (JSON); or a folder of them, paired by name'),
  )
    .description('score tempo, beats, bars, sections and key against what is known to be true')
    .option('--json', 'every score of every track, and over all tracks, as JSON')
    .addHelpText(
      'before',
      'Examples:\n  barwise evaluate track.wav track.jams\n  barwise evaluate music/ annotations/ --json > scores.json\n',
    )
    .action(async (estimates: string, truths: string, options: AnalysisArguments & { json?: boolean }) => {
      const { evaluateCommand } = await import('../commands/evaluate.js');
      done(await evaluateCommand(estimates, truths, options, io));
    });
}
