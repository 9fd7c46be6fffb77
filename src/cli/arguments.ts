import { parseShard, type CrateOptions } from '../crate/index.js';
import { CORRECTIONS_VARIABLE } from '../track/index.js';
import { BarwiseError, type Bpm } from '../units/index.js';
import type { Io } from './io.js';

/** Tempos that any music is counted at. */
const [SLOWEST, FASTEST]: [Bpm, Bpm] = [20, 400];

/** The options that every analysing command takes, as they come from the command line. */
export interface AnalysisArguments {
  readonly tempoRange?: string;
  readonly tempo?: string;
  /** False after `--no-cache`. */
  readonly cache?: boolean;
  readonly cacheFolder?: string;
  readonly jobs?: string;
  readonly shard?: string;
  readonly correctionsFolder?: string;
  /** False after `--no-corrections`. */
  readonly corrections?: boolean;
}

/** Reads them. Throws BarwiseError `bad-option`. @param env where the variable may stand that names the folder with corrections */
export function crateOptions(given: AnalysisArguments, env: Io['env'] = {}): CrateOptions {
  const corrections = given.correctionsFolder ?? env[CORRECTIONS_VARIABLE];
  const grid = {
    ...(given.tempoRange === undefined ? {} : { tempoRange: tempoRange(given.tempoRange) }),
    ...(given.tempo === undefined ? {} : { tempo: tempo(given.tempo, '--tempo') }),
  };
  return {
    ...(Object.keys(grid).length > 0 ? { constraints: { grid } } : {}),
    ...(given.cache === false ? { cache: false } : {}),
    ...(given.corrections === false ? { corrections: false } : {}),
    ...(corrections ? { correctionsFolder: corrections } : {}),
    ...(given.cacheFolder === undefined ? {} : { cacheFolder: given.cacheFolder }),
    ...(given.jobs === undefined ? {} : { workers: jobs(given.jobs) }),
    ...(given.shard === undefined ? {} : { shard: parseShard(given.shard) }),
  };
}

function tempoRange(text: string): [Bpm, Bpm] {
  const parts = text.split(/[-–:]/);
  if (parts.length !== 2) throw wrong('--tempo-range', text, 'two tempos like 80-100');
  const [low, high] = parts.map((part) => tempo(part, '--tempo-range')) as [Bpm, Bpm];
  if (low >= high) throw wrong('--tempo-range', text, 'the lower tempo first, like 80-100');
  return [low, high];
}

function tempo(text: string, option: string): Bpm {
  const value = /^\s*\d+(\.\d+)?\s*$/.test(text) ? Number(text) : NaN;
  if (value >= SLOWEST && value <= FASTEST) return value;
  throw wrong(option, text, `beats a minute from ${SLOWEST} to ${FASTEST}`);
}

function jobs(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= 256) return value;
  throw wrong('--jobs', text, 'a whole number of tracks to analyse at once');
}

function wrong(option: string, text: string, wanted: string): BarwiseError {
  return new BarwiseError('bad-option', `${option} does not take "${text}": give ${wanted}.`);
}
