import { createRequire } from 'node:module';
import { Command } from 'commander';
import type { AnalysisArguments } from './arguments.js';
import type { CorrectArguments } from './commands/correct.js';
import type { CardArguments } from './commands/cards.js';
import type { CrateArguments } from './commands/crate.js';
import type { ExplainArguments } from './commands/explain.js';
import type { LessonArguments } from './commands/lesson.js';
import type { WorksheetArguments } from './commands/worksheet.js';
import type { DoctorArguments } from './commands/doctor.js';
import type { MatchArguments } from './commands/match.js';
import type { OrderArguments } from './commands/order.js';
import type { CountArguments, DrillArguments, RehearseArguments } from './commands/practice.js';
import type { KernelArguments } from './commands/kernel.js';
import type { NotebookArguments } from './commands/notebook.js';
import type { ExportArguments } from './commands/export.js';
import { EXIT_HELP, type ExitCode } from './exit-codes.js';
import type { Io } from './io.js';

const { version } = createRequire(import.meta.url)('barwise/package.json') as { version: string };

const EXAMPLES = `Examples:
  barwise analyse music/                      a table of a crate
  barwise analyse track.mp3 --json            everything that was found, as data
  barwise analyse track.mp3 --tempo 87        counted at 87 and not at 174
  barwise explain track.mp3                   what happens on each one, in plain words
  barwise correct track.mp3 --first-one 0.42  what a person says is so from then on
  barwise crate music/ --sort tempo           the crate as a list
  barwise cards music/ --out cards.pdf        a printed card for every track
  barwise lesson track.mp3 --out lesson.pdf   its diagram, for a lesson
  barwise worksheet track.mp3 --out sheet.pdf questions about it, and the answers
  barwise show music/ --out crate.html        a page that plays and counts along
  barwise match one.flac two.flac             where to start the second on the first one's count
  barwise notebook inspect-track -p track=track.mp3 --html
`;

/** The commands. Each loads its part of the program when it is called; `done` gets its exit code. */
export function createProgram(io: Io, done: (code: ExitCode) => void): Command {
  const program = new Command('barwise')
    .description("Finds where a record's beats, bars, groups and phrases fall, and what happens on each one.")
    .version(version, '-V, --version', 'print the version')
    .addHelpText('before', EXAMPLES)
    .addHelpText('after', `\n${EXIT_HELP}`)
    .helpCommand(false)
    .showSuggestionAfterError();
  configure(program, io);

  analysing(program.command('analyse').argument('<path...>', 'audio files, or folders of them'))
    .description('print tempo, key, phrases, irregularities and doubt of tracks')
    .option('--json', 'everything as JSON: one track, or {"tracks", "failures"}')
    .addHelpText(
      'before',
      'Examples:\n  barwise analyse music/ | sort -t "\t" -k 4 -n\n  barwise analyse a.wav b.flac --tempo-range 80-100\n',
    )
    .action(async (paths: string[], options: AnalysisArguments & { json?: boolean }) => {
      const { analyseCommand } = await import('./commands/analyse.js');
      done(await analyseCommand(paths, options, io));
    });

  analysing(program.command('crate').argument('<path...>', 'folders of audio files, or files'))
    .description('list a crate: filter and sort it; what is new in it is analysed first')
    .option('--bpm <low-high>', 'only these tempos, like 120-126, 120- or 124')
    .option('--key <key>', 'only this key, like "A minor"')
    .option('--length <low-high>', 'only these lengths, like 4:00-7:30')
    .option('--regular', 'only tracks without an irregularity')
    .option('--odd', 'only tracks with one or more')
    .option('--sections <functions>', 'only tracks with these sections in this order, like breakdown,drop')
    .option('--sort <order>', 'name, tempo, key (round the circle of fifths), length, phrases or loudness')
    .option('--reverse', 'the other way round')
    .option('--json', 'everything the list knows, as JSON')
    .option('--csv', 'as CSV for a spreadsheet')
    .option('--watch', 'stay, and print a line for every track that comes or changes')
    .addHelpText(
      'before',
      'Examples:\n  barwise crate music/ --bpm 120-126 --sort key\n  barwise crate music/ --odd --csv > odd.csv\n',
    )
    .action(async (paths: string[], options: CrateArguments) => {
      const { crateCommand } = await import('./commands/crate.js');
      done(await crateCommand(paths, options, io));
    });

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
      const { cardsCommand } = await import('./commands/cards.js');
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
      const { lessonCommand } = await import('./commands/lesson.js');
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
      const { worksheetCommand } = await import('./commands/worksheet.js');
      done(await worksheetCommand(paths, options, io));
    });

  analysing(program.command('show').argument('<path...>', 'audio files, or folders of them'))
    .description('make a page that plays tracks, counts along and lights up their ladders')
    .option('-o, --out <page.html>', 'where the page goes', 'barwise.html')
    .option('--title <text>', 'name of the crate on the page')
    .addHelpText('before', 'Example:\n  barwise show music/ --out crate.html\n')
    .action(async (paths: string[], options: AnalysisArguments & { out: string; title?: string }) => {
      const { showCommand } = await import('./commands/show.js');
      done(await showCommand(paths, options, io));
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
      const { evaluateCommand } = await import('./commands/evaluate.js');
      done(await evaluateCommand(estimates, truths, options, io));
    });

  analysing(program.command('explain').argument('<path...>', 'audio files, or folders of them'))
    .description('tell a track in plain words: what happens on each one, and where it leaves its pattern')
    .option('--counts', 'bar by bar: time, count, phrase, section, what happens')
    .option('--language <tag>', 'en or de', 'en')
    .option('--json', 'the same as data')
    .addHelpText('before', 'Examples:\n  barwise explain track.mp3\n  barwise explain track.mp3 --counts | less\n')
    .action(async (paths: string[], options: ExplainArguments) => {
      const { explainCommand } = await import('./commands/explain.js');
      done(await explainCommand(paths, options, io));
    });

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
      const { matchCommand } = await import('./commands/match.js');
      done(await matchCommand(a, b, options, io));
    });

  const practice = program
    .command('practice')
    .description('make practice audio: count-along, rehearsals, drills for the ear');
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
      const { practiceCountCommand } = await import('./commands/practice.js');
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
      const { practiceRehearseCommand } = await import('./commands/practice.js');
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
    .addHelpText(
      'before',
      'Examples:\n  barwise practice drill the-one track.flac --out one.mp3\n  barwise practice drill ahead --out ahead.wav\n',
    )
    .action(async (name: string, files: string[], options: DrillArguments) => {
      const { practiceDrillCommand } = await import('./commands/practice.js');
      done(await practiceDrillCommand(name, files, options, io));
    });
  practice.commands.forEach((command) => configure(command, io));

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
      const { orderCommand } = await import('./commands/order.js');
      done(await orderCommand(paths, options, io));
    });

  program
    .command('correct')
    .argument('<file>', 'an audio file')
    .description('say what is so about a track; it is counted so from then on, whatever the file is called')
    .option('--tempo <bpm>', 'it is counted at the tempo nearest to this one')
    .option('--first-one <time>', 'bar 1 and phrase one start here; nothing before is counted')
    .option('--beats-per-bar <n>', 'a bar has so many beats')
    .option('--beat <time>', 'a beat falls here')
    .option('--phrase <time>', 'a phrase starts here; can be repeated, as all that follow', collect, [])
    .option('--not-phrase <time>', 'no phrase starts here', collect, [])
    .option('--section <time[=function]>', 'a section starts here, like 64.2=drop', collect, [])
    .option('--not-section <time>', 'no section starts here', collect, [])
    .option('--event <time=what>', 'a layer enters or leaves here, like "64.2=bass in"', collect, [])
    .option('--not-event <time=what>', 'it does not', collect, [])
    .option('--list', 'what has been said about the track')
    .option('--undo [number]', 'take the last one back, or the one of this number')
    .option('--dry-run', 'only show what would change')
    .option('--json', 'what changed, and the new analysis, as JSON')
    .option(
      '--corrections-folder <folder>',
      'where corrections are kept; default: $BARWISE_CORRECTIONS or your own data',
    )
    .addHelpText(
      'before',
      'Times are seconds (64.2) or as on a player (1:04.2).\nExamples:\n  barwise correct track.mp3 --tempo 87\n' +
        '  barwise correct track.mp3 --section 1:04.2=drop --not-event "64.2=voice in"\n  barwise correct track.mp3 --undo\n',
    )
    .action(async (file: string, options: CorrectArguments) => {
      const { correctCommand } = await import('./commands/correct.js');
      done(await correctCommand(file, options, io));
    });

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
      const { notebookCommand } = await import('./commands/notebook.js');
      done(await notebookCommand(name, options, io, jupyterOptions));
    });

  const kernel = program.command('kernel').description('give the kernel for notebooks to Jupyter, or take it back');
  kernel
    .command('install')
    .description('put the kernel into this folder, or with --user where all of your Jupyter finds it')
    .option('--user', 'for all folders of this user')
    .addHelpText('before', 'Example:\n  barwise kernel install --user\n')
    .action(async (options: KernelArguments) => {
      const { kernelInstallCommand } = await import('./commands/kernel.js');
      done(await kernelInstallCommand(options, io));
    });
  kernel
    .command('remove')
    .description('take the kernel away again')
    .option('--user', 'the one for all folders of this user')
    .addHelpText('before', 'Example:\n  barwise kernel remove --user\n')
    .action(async (options: KernelArguments) => {
      const { kernelRemoveCommand } = await import('./commands/kernel.js');
      done(await kernelRemoveCommand(options, io));
    });
  kernel
    .command('serve', { hidden: true })
    .argument('<connection-file>', 'what Jupyter gives the kernel')
    .description('what Jupyter runs')
    .action(async (file: string) => {
      const { kernelServeCommand } = await import('./commands/kernel.js');
      done(await kernelServeCommand(file, io));
    });
  kernel.commands.forEach((command) => configure(command, io));

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
      const { exportCommand } = await import('./commands/export.js');
      done(await exportCommand(paths, options, io));
    });

  program
    .command('doctor')
    .argument('[path...]', 'folders whose caches to look into')
    .description('check that everything is there that Barwise needs, and say what to do where it is not')
    .option('--tidy', 'delete cached analyses and leftovers that no run will ever read again')
    .option('--cache-folder <folder>', 'where finished analyses are kept; default: .barwise beside the music')
    .option('--json', 'what was found, as JSON')
    .addHelpText('before', 'Examples:\n  barwise doctor\n  barwise doctor music/ --tidy\n')
    .action(async (paths: string[], options: DoctorArguments) => {
      const { doctorCommand } = await import('./commands/doctor.js');
      done(await doctorCommand(paths, options, io));
    });

  program
    .command('demo')
    .description('make the demo crate, analyse it, and print and show all of it')
    .option('--folder <folder>', 'where everything goes', 'demo')
    .action(async (options: { folder: string }) => {
      const { demoCommand } = await import('./commands/demo.js');
      done(await demoCommand(options, io));
    });

  program.commands.forEach((command) => configure(command, io));
  return program;
}

/** The options that all commands share which analyse. */
function analysing(command: Command): Command {
  return command
    .option('--tempo-range <low-high>', 'look for tempos in this range only, like 80-100')
    .option('--tempo <bpm>', 'count at the tempo nearest to this one, to settle "87 or 174?"')
    .option('--jobs <n>', 'tracks to analyse at once; default: one a core')
    .option('--shard <i/n>', 'only part i of n of the tracks, to share a crate out over machines')
    .option('--cache-folder <folder>', 'where finished analyses are kept; default: .barwise beside the music')
    .option('--no-cache', 'neither take finished analyses nor keep them')
    .option(
      '--corrections-folder <folder>',
      'where corrections are kept; default: $BARWISE_CORRECTIONS or your own data',
    )
    .option('--no-corrections', 'as if nobody had said anything about the tracks');
}

/** The options that all printing commands share. */
function printing(command: Command): Command {
  return analysing(command)
    .option('--language <tag>', 'en or de')
    .option('--theme <file.yaml>', 'colours, hatches and words of your own')
    .option('--ink-saving', 'hollow hatches')
    .option('--overwrite', 'replace the file even if Barwise did not make it');
}

/** The options of every command that makes sound. */
function sounding(command: Command): Command {
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
function matching(command: Command): Command {
  return command
    .option('--change <record>', 'which record changes its tempo: a, b or both', 'b')
    .option('--fader <percent>', 'range of the tempo fader, like 8 for ±8 %', '8')
    .option('--key-lock', 'the player holds the key when the tempo changes')
    .option('--longest <bars>', 'longest overlap, in bars of A', '64')
    .option('--not-before <bar>', 'B does not start before this bar of A', '1');
}

function configure(command: Command, io: Io): void {
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

function collect(value: string, before: readonly string[]): string[] {
  return [...before, value];
}
