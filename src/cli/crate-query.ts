import { CRATE_ORDERS, type CrateOrder, type CrateQuery } from '../crate/index.js';
import { BarwiseError, MODES, PITCH_CLASSES, SECTION_FUNCTIONS, type Mode, type PitchClass } from '../units/index.js';

/** What `barwise crate` is told to keep, as it comes from the command line. */
export interface QueryArguments {
  readonly bpm?: string;
  readonly key?: string;
  readonly length?: string;
  readonly regular?: boolean;
  readonly odd?: boolean;
  readonly sections?: string;
  readonly sort?: string;
  readonly reverse?: boolean;
}

/** Reads it. Throws BarwiseError `bad-option`. */
export function crateQuery(given: QueryArguments): CrateQuery {
  if (given.regular && given.odd) throw new BarwiseError('bad-option', 'A track cannot be both --regular and --odd.');
  return {
    ...(given.bpm === undefined ? {} : { tempo: range(given.bpm, '--bpm', number, '120-126') }),
    ...(given.key === undefined ? {} : { key: key(given.key) }),
    ...(given.length === undefined ? {} : { length: range(given.length, '--length', minutes, '4:00-7:30') }),
    ...(given.regular ? { phrases: 'regular' as const } : given.odd ? { phrases: 'odd' as const } : {}),
    ...(given.sections === undefined ? {} : { sections: given.sections.split(',').map(sectionFunction) }),
    ...(given.sort === undefined ? {} : { order: order(given.sort) }),
    ...(given.reverse ? { descending: true } : {}),
  };
}

/** "120-126", "-126", "120-", or "124" for itself alone, to within half a unit of its last digit. */
function range(text: string, option: string, read: (part: string) => number, example: string): [number, number] {
  const parts = text.split(/[-–]/).map((part) => part.trim());
  const [low, high] = parts.map((part) => (part === '' ? null : read(part)));
  const wrong = new BarwiseError('bad-option', `${option} does not take "${text}": give a range like ${example}.`);
  if (parts.length === 1 && low !== null && Number.isFinite(low)) {
    const half = 0.5 * 10 ** -(/\.(\d+)$/.exec(text)?.[1].length ?? 0);
    return [low - half, low + half];
  }
  if (parts.length !== 2 || (low === null && high === null)) throw wrong;
  if (![low, high].every((v) => v === null || Number.isFinite(v))) throw wrong;
  if ((low ?? 0) > (high ?? Infinity)) throw wrong;
  return [low ?? 0, high ?? Infinity];
}

function number(text: string): number {
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
}

/** "6:30" or seconds. */
function minutes(text: string): number {
  const [, m, s] = /^(\d+):([0-5]\d)$/.exec(text)?.map(Number) ?? [];
  return m === undefined ? number(text) : m * 60 + s;
}

const FLATS: Readonly<Record<string, PitchClass>> = {
  Db: 'C#',
  Eb: 'D#',
  Gb: 'F#',
  Ab: 'G#',
  Bb: 'A#',
  Cb: 'B',
  Fb: 'E',
};

/** "A minor", "F# major", "bb minor", "e♭ major". */
function key(text: string): { tonic: PitchClass; mode: Mode } {
  const [, letter, sign, mode] = /^\s*([a-g])\s*([#♯b♭]?)\s+(\w+)\s*$/i.exec(text) ?? [];
  const name = letter && `${letter.toUpperCase()}${sign.replace('♯', '#').replace(/[♭B]/, 'b')}`;
  const tonic = PITCH_CLASSES.find((p) => p === name) ?? (name && FLATS[name]);
  const found = MODES.find((m) => m === mode?.toLowerCase());
  if (tonic && found) return { tonic, mode: found };
  throw new BarwiseError('bad-option', `--key does not take "${text}": give a key like "A minor" or "F# major".`);
}

function sectionFunction(text: string): (typeof SECTION_FUNCTIONS)[number] {
  const found = SECTION_FUNCTIONS.find((f) => f === text.trim().toLowerCase());
  if (found) return found;
  throw new BarwiseError(
    'bad-option',
    `--sections does not take "${text}": give ${SECTION_FUNCTIONS.join(', ')}, parted by commas.`,
  );
}

function order(text: string): CrateOrder {
  const found = CRATE_ORDERS.find((o) => o === text);
  if (found) return found;
  throw new BarwiseError('bad-option', `--sort does not take "${text}": give ${CRATE_ORDERS.join(', ')}.`);
}
