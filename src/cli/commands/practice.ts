import { extname } from 'node:path';
import { stat } from 'node:fs/promises';
import { writeAtomically } from '../../audio/index.js';
import { matchTracks } from '../../matching/index.js';
import { renderDrill } from '../../player/index.js';
import {
  answerSheet,
  CONTRASTS,
  countAlong,
  drillAhead,
  drillPhraseMatched,
  DRILLS,
  drillTheOne,
  FADE_SHAPES,
  HEARING_CAUTION,
  LOUDEST,
  practiceFormat,
  rehearse,
  writePractice,
  type Drill,
  type Practice,
} from '../../practice/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { matchWordsOf, startSentence } from '../../wording/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { languageOption, numberOption, wordOption } from '../options.js';
import { analyseTwo } from '../two-tracks.js';
import { matchOptions, type MatchArguments } from './match.js';

interface SoundArguments {
  readonly out: string;
  readonly loudness?: string;
  readonly overwrite?: boolean;
}

export type CountArguments = AnalysisArguments &
  SoundArguments & {
    readonly bars?: string;
    readonly times?: string;
    readonly leadIn?: string;
    readonly clicks?: string;
    readonly track?: boolean;
    readonly spoken?: string;
  };

export type RehearseArguments = MatchArguments &
  SoundArguments & {
    readonly plan?: string;
    readonly fade?: string;
    readonly clicks?: string;
    readonly around?: string;
    readonly contrast?: string;
  };

export type DrillArguments = MatchArguments & SoundArguments & { readonly seed?: string; readonly html?: boolean };

/** `barwise practice count FILE`: the track with clicks. */
export async function practiceCountCommand(file: string, given: CountArguments, io: Io): Promise<ExitCode> {
  await checkSoundFile(given);
  const loudness = loudnessOf(given);
  const spoken = given.spoken === undefined ? {} : { spoken: languageOption(given.spoken, '--spoken') };
  const options = {
    ...(given.bars === undefined ? {} : { bars: barsOf(given.bars) }),
    times: numberOption(given.times, '--times', 1, 100) ?? 1,
    leadIn: numberOption(given.leadIn, '--lead-in', 0, 16) ?? 1,
    clicks: (numberOption(given.clicks, '--clicks', 0, 100) ?? 50) / 100,
    track: given.track !== false,
    ...spoken,
    ...loudness,
    signal: io.signal,
  };
  const track = await one(file, given, io);
  return deliver(await countAlong(track, options), given.out, io);
}

/** `barwise practice rehearse A B`: a plan as sound. */
export async function practiceRehearseCommand(
  fileA: string,
  fileB: string,
  given: RehearseArguments,
  io: Io,
): Promise<ExitCode> {
  await checkSoundFile(given);
  const number = numberOption(given.plan, '--plan', 1, 50) ?? 1;
  const contrast = wordOption(given.contrast ?? 'right', '--contrast', CONTRASTS);
  const fade = wordOption(given.fade ?? 'swap', '--fade', FADE_SHAPES);
  const clicks = (numberOption(given.clicks, '--clicks', 0, 100) ?? 0) / 100;
  const around = numberOption(given.around, '--around', 0, 64) ?? 8;
  const loudness = loudnessOf(given);
  const [a, b] = await analyseTwo([fileA, fileB], given, io);
  const match = matchTracks(a, b, { ...matchOptions(given), plans: number });
  const plan = match.plans[number - 1];
  if (plan === undefined) {
    throw new BarwiseError(
      'bad-option',
      `There is no plan ${number}: barwise match lists the ${match.plans.length} there are.`,
    );
  }
  const keyLock = given.keyLock === true;
  const made = await rehearse(a, b, match, plan, {
    keyLock,
    contrast,
    fade,
    clicks,
    around,
    ...loudness,
    signal: io.signal,
  });
  say(io, startSentence(plan, 'B', matchWordsOf('en')));
  return deliver(made, given.out, io);
}

/** `barwise practice drill NAME FILE…`: questions for the ear, with a sheet of answers beside the sound, and a page to play. */
export async function practiceDrillCommand(
  name: string,
  files: readonly string[],
  given: DrillArguments,
  io: Io,
): Promise<ExitCode> {
  const drill = wordOption(name, 'the drill', DRILLS);
  await checkSoundFile(given);
  const stem = given.out.slice(0, -extname(given.out).length);
  const [sheet, page] = [`${stem}-answers.txt`, `${stem}.html`];
  for (const file of given.html ? [sheet, page] : [sheet]) await checkNew(file, given);
  const seed = numberOption(given.seed, '--seed', 0, 1e9) ?? 1;
  const options = { seed, ...loudnessOf(given), signal: io.signal };
  const made = await makeDrill(drill, files, given, options, io);
  const code = await deliver(made, given.out, io);
  await writeAtomically(sheet, [Buffer.from(answerSheet(made))]);
  io.stdout.write(`${sheet}\n`);
  if (given.html) {
    await writeAtomically(page, [Buffer.from(await renderDrill(made, { signal: io.signal }))]);
    io.stdout.write(`${page}\n`);
  }
  return code;
}

async function makeDrill(
  drill: (typeof DRILLS)[number],
  files: readonly string[],
  given: DrillArguments,
  options: Parameters<typeof drillAhead>[0] & object,
  io: Io,
): Promise<Drill> {
  const needed = { 'the-one': 1, ahead: 0, 'phrase-matched': 2 }[drill];
  if (files.length !== needed) {
    throw new BarwiseError('bad-option', `The drill ${drill} takes ${['no file', 'one file', 'two files'][needed]}.`);
  }
  if (drill === 'ahead') return drillAhead(options);
  if (drill === 'the-one') return drillTheOne(await one(files[0], given, io), options);
  const [a, b] = await analyseTwo([files[0], files[1]], given, io);
  const match = matchTracks(a, b, matchOptions(given));
  return drillPhraseMatched({ a, b, match, plan: match.plans[0] }, options);
}

async function one(file: string, given: AnalysisArguments, io: Io): Promise<TrackAnalysis> {
  const { tracks } = await analyse([file], given, io);
  if (tracks.length === 1) return tracks[0];
  throw new BarwiseError('bad-option', `${file} does not give one track: give one audio file.`, { file });
}

/** Writes the sound, says how loud it is and gives the caution. */
async function deliver({ sound, level, notices }: Practice, out: string, io: Io): Promise<ExitCode> {
  notices.forEach((notice) => say(io, notice));
  await writePractice(out, sound, { signal: io.signal });
  const { integratedLufs, truePeakDbtp, softer } = level;
  const loud = integratedLufs === null ? '' : `${integratedLufs.toFixed(1)} LUFS, `.replace('-', '−');
  const peak = truePeakDbtp === null ? 'silent' : `true peak ${truePeakDbtp.toFixed(1)} dBTP`.replace('-', '−');
  say(io, `${loud}${peak}${softer ? '; its peaks keep it softer than asked for' : ''}.`);
  say(io, HEARING_CAUTION);
  nameFile(io, out);
  return EXIT.done;
}

function loudnessOf({ loudness }: SoundArguments): { readonly loudness?: number } {
  const value = numberOption(loudness, '--loudness', -40, LOUDEST);
  return value === undefined ? {} : { loudness: value };
}

function barsOf(text: string): readonly [number, number] {
  const parts = /^\s*(\d+)\s*[-–]\s*(\d+)\s*$/.exec(text);
  const [first, last] = [Number(parts?.[1]), Number(parts?.[2])];
  if (first <= last) return [first, last];
  throw new BarwiseError('bad-option', `--bars does not take "${text}": give the first and the last bar, like 33-64.`);
}

async function checkSoundFile(given: SoundArguments): Promise<void> {
  practiceFormat(given.out);
  await checkNew(given.out, given);
}

/** Nothing that is there is written over unless that is asked for. */
async function checkNew(file: string, { overwrite }: SoundArguments): Promise<void> {
  if (overwrite || (await stat(file).catch(() => null)) === null) return;
  throw new BarwiseError('bad-option', `${file} is there already: give another name, or --overwrite.`, { file });
}
