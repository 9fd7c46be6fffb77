import { correctionSchema, type Correction } from '../track/index.js';
import { BarwiseError, LAYERS, SECTION_FUNCTIONS, type Change, type Layer, type Seconds } from '../units/index.js';

/** What `barwise correct` is told, as it comes from the command line. */
export interface CorrectionArguments {
  readonly tempo?: string;
  readonly beatsPerBar?: string;
  readonly firstOne?: string;
  readonly beat?: string;
  readonly bar: readonly string[];
  readonly phrase: readonly string[];
  readonly notPhrase: readonly string[];
  readonly section: readonly string[];
  readonly notSection: readonly string[];
  readonly event: readonly string[];
  readonly notEvent: readonly string[];
}

const DRUMS: readonly Layer[] = ['kick', 'percussion'];

/** Reads them. Throws BarwiseError `bad-option`. */
export function correctionsOf(given: CorrectionArguments): Correction[] {
  const out: unknown[] = [];
  if (given.tempo !== undefined)
    out.push(
      checked(
        '--tempo',
        given.tempo,
        { kind: 'tempo', bpm: number('--tempo', given.tempo) },
        'beats a minute from 20 to 400',
      ),
    );
  if (given.beatsPerBar !== undefined)
    out.push(
      checked(
        '--beats-per-bar',
        given.beatsPerBar,
        { kind: 'metre', beatsPerBar: number('--beats-per-bar', given.beatsPerBar) },
        'a whole number from 2 to 16',
      ),
    );
  const at = (option: string, text: string) => time(option, text);
  if (given.firstOne !== undefined) out.push({ kind: 'first-one', time: at('--first-one', given.firstOne) });
  if (given.beat !== undefined) out.push({ kind: 'beat', time: at('--beat', given.beat) });
  for (const text of given.bar) out.push({ kind: 'bar', time: at('--bar', text) });
  for (const text of given.phrase) out.push({ kind: 'phrase', time: at('--phrase', text), starts: true });
  for (const text of given.notPhrase) out.push({ kind: 'phrase', time: at('--not-phrase', text), starts: false });
  for (const text of given.section) out.push(section(text));
  for (const text of given.notSection)
    out.push({ kind: 'section', time: at('--not-section', text), starts: false, function: null });
  for (const text of given.event) out.push(...event('--event', text, true));
  for (const text of given.notEvent) out.push(...event('--not-event', text, false));
  return out.map((c) => correctionSchema.parse(c));
}

/** A time in seconds or as on a player. @example time('--beat', '1:04.2') // 64.2 */
export function time(option: string, text: string): Seconds {
  const match = /^\s*(?:(?:(\d{1,2}):)?(\d{1,3}):)?(\d+(?:\.\d+)?)\s*$/.exec(text);
  const value = match ? Number(match[1] ?? 0) * 3600 + Number(match[2] ?? 0) * 60 + Number(match[3]) : NaN;
  if (value >= 0 && value <= 36_000) return value;
  throw wrong(option, text, 'a time like 64.2 or 1:04.2');
}

function section(text: string): Correction {
  const [place, name, ...more] = text.split('=');
  const functions = SECTION_FUNCTIONS.join(', ');
  const found = name === undefined ? null : SECTION_FUNCTIONS.find((f) => f === name.trim().toLowerCase());
  if (found === undefined || more.length > 0)
    throw wrong('--section', text, `a time and one of ${functions}, like 64.2=drop`);
  return { kind: 'section', time: time('--section', place), starts: true, function: found };
}

function event(option: string, text: string, happens: boolean): Correction[] {
  const match = /^([^=]+)=\s*([a-z]+)[\s-]+(in|out|enters|leaves)\s*$/i.exec(text);
  const name = match?.[2].toLowerCase();
  const layers = name === 'drums' ? DRUMS : LAYERS.filter((l) => l === name);
  if (!match || layers.length === 0)
    throw wrong(option, text, `a time, one of ${LAYERS.join(', ')} or drums, and in or out, like "64.2=bass in"`);
  const change: Change = /^(in|enters)$/i.test(match[3]) ? 'enters' : 'leaves';
  return layers.map((layer) => ({ kind: 'event', time: time(option, match[1]), layer, change, happens }));
}

function number(option: string, text: string): number {
  if (/^\s*\d+(\.\d+)?\s*$/.test(text)) return Number(text);
  throw wrong(option, text, 'a number');
}

function checked(option: string, text: string, value: unknown, wanted: string): unknown {
  if (correctionSchema.safeParse(value).success) return value;
  throw wrong(option, text, wanted);
}

function wrong(option: string, text: string, wanted: string): BarwiseError {
  return new BarwiseError('bad-option', `${option} does not take "${text}": give ${wanted}.`);
}
