import { createKernels, type FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';

/** Power below this share of the track's mean counts as silence. */
const FLOOR = 1e-4;
/** A pitch class is held when it is never (in four of five frames) below this share of the power of all. */
const HELD = 0.03;

/** Names of the cues in their order; weights are fitted on them. */
export const CHORD_CUES: readonly string[] = [
  ...['second', 'third', 'fourth', 'fifth'].map((n) => `${n} pitch class in each frame`),
  'same loudest pitch class',
  'likeness of the frames to the bar',
  'likeness of each frame to the one before',
  ...['first', 'second', 'third'].map((n) => `${n} held pitch class in the bar`),
  ...['first', 'third'].map((n) => `${n} held pitch class in the track`),
  'third usual pitch class in the track',
  'third usual pitch class in the bar',
  'held pitch classes',
  ...['third', 'fourth', 'sixth'].map((n) => `${n} pitch class of the bar`),
];

/** Shares of a bar's frames below which a pitch class is held, and usual. */
const HELD_SHARE = 0.2;
const USUAL_SHARE = 0.5;
/** The highest powers of a frame that are looked at. */
const TOPS = 5;
/** Frames of a bar for which there is room at once: eleven minutes. */
const FEW_FRAMES = 8192;

/** Cues of a bar by its start and end. */
export type ChordEar = (start: Seconds, end: Seconds) => number[];

/**
 * Describes bars by how many pitch classes sound together and how long: chords hold three and more, a bass or a voice one,
 * with its overtones. Levels are in dB against the loudest class of the frame or bar, or against what is named.
 */
export function chordEar({ chroma, meanPower }: FrontEnd): ChordEar {
  const { values, rate, rows } = chroma;
  const floor = meanPower * FLOOR;
  const decibels = (power: number, against: number) => 10 * Math.log10((power + floor) / (against + floor));
  const most = Math.min(Math.max(rows, 1), FEW_FRAMES);
  const kernels = createKernels(most * (52 + 8 * TOPS) + 1024);
  const { loops } = kernels;
  const [powers, course, tops] = [kernels.floats(12 * most), kernels.floats(most).at, kernels.doubles(TOPS * most).at];
  const [mean, loudest, few, held, usual] = Array.from({ length: 5 }, () => kernels.doubles(12));
  const [likeness, together] = [kernels.doubles(2), kernels.doubles(TOPS - 1)];
  return (start, end) => {
    const first = Math.max(0, Math.ceil(start * rate));
    const last = Math.min(rows, Math.max(Math.ceil(end * rate), first + 1), first + most);
    const frames = last - first;
    if (frames <= 0) return CHORD_CUES.map(() => 0);
    powers.view.set(values.subarray(first * 12, last * 12));
    mean.view.fill(0);
    loudest.view.fill(0);
    few.view.fill(0);
    likeness.view.fill(0);
    loops.chords(powers.at, frames, tops, mean.at, loudest.at, likeness.at, few.at);
    loops.heldClasses(powers.at, frames, HELD_SHARE, USUAL_SHARE, tops, floor, course, held.at, usual.at, together.at);
    const total = mean.view.reduce((a, v) => a + v, 0);
    const holding = held.view.filter((v) => v > HELD * total).length;
    const mostOften = Math.max(...loudest.view) / frames;
    const [h, u, m] = [held, usual, mean].map(({ view }) => view.sort().reverse());
    return [
      ...together.view,
      mostOften,
      ...likeness.view,
      ...[h[0], h[1], h[2]].map((v) => decibels(v, total)),
      ...[h[0], h[2], u[2]].map((v) => decibels(v, meanPower)),
      decibels(u[2], total),
      holding,
      ...[m[2], m[3], m[5]].map((v) => decibels(v, m[0])),
    ];
  };
}
