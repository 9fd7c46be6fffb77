import { parseArgs } from 'node:util';
import { findGrid } from '../../src/rhythm/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { fMeasure } from '../rhythm/drums.js';
import { fillBetween } from './docs.js';
import { KEPT_BACK, OTHER_METRES, PATTERNS, type Pattern } from './plain-rhythms/patterns.js';
import { playPattern } from './plain-rhythms/play.js';
import { frontEndOf } from './song-front-ends.js';
import { markdown } from './tables.js';

/** Beats and ones are right from this F on. */
const RIGHT = 0.9;
/** Training takes its seeds from 10 000 on. */
const FIRST_SEED = 5000;

const { values } = parseArgs({
  options: { takes: { type: 'string', default: '5' }, docs: { type: 'boolean', default: false } },
});

interface Heard {
  readonly beats: boolean;
  readonly metre: boolean;
  /** Null where nothing in the sound tells the one. */
  readonly ones: boolean | null;
  readonly level: number | null;
}

function hear(pattern: Pattern, seed: number): Heard {
  const { samples, beats, downbeats, bpm, beatsPerBar, alike } = playPattern(pattern, seed);
  try {
    const grid = findGrid(frontEndOf(samples, samples));
    const starts = grid.bars.map((bar) => bar.start);
    return {
      beats: fMeasure(beats, grid.beats) > RIGHT,
      metre: grid.metre.beatsPerBar === beatsPerBar,
      ones: alike.length > 1 ? null : fMeasure(downbeats, starts) > RIGHT,
      level: grid.tempo.bpm / bpm,
    };
  } catch (error) {
    if (!(error instanceof BarwiseError)) throw error;
    return { beats: false, metre: false, ones: alike.length > 1 ? null : false, level: null };
  }
}

const takes = Number(values.takes);
const row = (name: string, heard: readonly Heard[]): string[] => {
  const share = (of: readonly (boolean | null)[]) => {
    const known = of.filter((v) => v !== null);
    return known.length === 0 ? '–' : `${known.filter(Boolean).length} of ${known.length}`;
  };
  const levels = heard.filter((h) => !h.beats).map((h) => (h.level === null ? 'none' : `× ${h.level.toFixed(2)}`));
  return [
    name,
    share(heard.map((h) => h.beats)),
    share(heard.map((h) => h.metre)),
    share(heard.map((h) => h.ones)),
    levels.join(', '),
  ];
};
const sets = [
  ['in the training, other takes', PATTERNS],
  ['kept back', KEPT_BACK],
  ['other metres', OTHER_METRES],
] as const;
const rows = sets.flatMap(([name, patterns]) => {
  const heard = patterns.map((pattern, i) =>
    Array.from({ length: takes }, (_, t) => hear(pattern, FIRST_SEED + 100 * t + i)),
  );
  return [row(`**${name}**`, heard.flat()), ...patterns.map((pattern, i) => row(pattern.name, heard[i]))];
});
const table = markdown(['rhythm', 'beats right', 'metre right', 'ones right', 'tempo where beats are wrong'], rows);
console.log(table);
if (values.docs) {
  const head = `${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/plain.ts --takes ${takes} --docs\`; right is F over ${RIGHT}.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'plain', `${head}\n\n${table}`);
}
