import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { findGrid } from '../../src/rhythm/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { fMeasure } from '../rhythm/drums.js';
import { fillBetween } from './docs.js';
import { pieceIds } from './song-front-ends.js';
import { markdown } from './tables.js';
import { playedPiece } from './train-examples.js';
import { isLocked } from './train-folds.js';

const USAGE = `npx tsx tests/corpus/played.ts FOLDER [--docs]
  Counts the pieces of FOLDER/played (made by tests/corpus/build/accompaniments.py) in styles that the weights were not
  fitted on, most of them cut at the start, and says how often tempo, beats, metre and ones are right.`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { docs: { type: 'boolean', default: false } },
});
/** Beats and ones are right from this F on, a tempo within this share. */
const RIGHT = 0.9;
const SAME_TEMPO = 0.04;

interface Heard {
  readonly style: string;
  readonly ratio: number | null;
  readonly beats: number;
  readonly ones: number;
  readonly metre: boolean;
  /** Under 0.6 for tempo, beat or one. */
  readonly unsure: boolean;
}

function hear(folder: string, id: string): Heard | null {
  const { frontEnd, truth, origin } = playedPiece(folder, id);
  if (!isLocked(origin.maker)) return null;
  const style = origin.maker.replace('played-', '');
  const last = truth.beats[truth.beats.length - 1] + 0.1;
  const within = (times: readonly number[]) => times.filter((t) => t <= last);
  try {
    const grid = findGrid(frontEnd);
    return {
      style,
      ratio: grid.tempo.bpm / truth.bpm,
      beats: fMeasure(truth.beats, within(grid.beats)),
      ones: fMeasure(truth.downbeats, within(grid.bars.map((bar) => bar.start))),
      metre: grid.metre.beatsPerBar === Number(truth.meter.split('/')[0]),
      unsure: Math.min(grid.tempo.confidence ?? 0, grid.beatPhase.confidence ?? 0, grid.downbeat.confidence ?? 0) < 0.6,
    };
  } catch (error) {
    if (!(error instanceof BarwiseError)) throw error;
    return { style, ratio: null, beats: 0, ones: 0, metre: false, unsure: true };
  }
}

function row(name: string, heard: readonly Heard[]): string[] {
  const share = (is: (h: Heard) => boolean) => (heard.filter(is).length / heard.length).toFixed(3);
  const mean = (of: (h: Heard) => number) => (heard.reduce((sum, h) => sum + of(h), 0) / heard.length).toFixed(3);
  const near = (ratio: number | null, levels: readonly number[]) =>
    ratio !== null && levels.some((m) => Math.abs(ratio / m - 1) < SAME_TEMPO);
  return [
    name,
    String(heard.length),
    share((h) => near(h.ratio, [1])),
    share((h) => near(h.ratio, [1, 2, 3, 1 / 2, 1 / 3])),
    mean((h) => h.beats),
    share((h) => h.metre),
    mean((h) => h.ones),
    share((h) => h.unsure),
    share((h) => !h.unsure && (h.beats < RIGHT || h.ones < RIGHT)),
  ];
}

function main(folder: string): void {
  const played = join(folder, 'played');
  const heard = pieceIds(played).flatMap((id) => hear(played, id) ?? []);
  const styles = [...new Set(heard.map((h) => h.style))].sort();
  const wrong = styles
    .map((style) => ({ style, of: heard.filter((h) => h.style === style) }))
    .map(({ style, of }) => ({
      style,
      count: of.length,
      bad: of.filter((h) => h.beats < RIGHT || h.ones < RIGHT).length,
    }))
    .filter(({ bad }) => bad > 0);
  const table = markdown(
    [
      'styles',
      'pieces',
      'tempo accuracy 1',
      'accuracy 2',
      'beat F',
      'metre right',
      'downbeat F',
      'not sure',
      'sure and wrong',
    ],
    [row(`${styles.length} kept back`, heard)],
  );
  const list = `Wrong in beats or ones: ${wrong.map(({ style, bad, count }) => `${style} ${bad} of ${count}`).join(', ')}.`;
  console.log(`${table}\n\n${list}`);
  if (!values.docs) return;
  const head = `${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/played.ts FOLDER --docs\`; wrong is F under ${RIGHT}.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'played', `${head}\n\n${table}\n\n${list}`);
}

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}
