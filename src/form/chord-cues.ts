import { borrowKernels, type FrontEnd } from '../signal/index.js';
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

/**
 * Describes one bar by how many pitch classes sound together and how long: chords hold three and more, a bass or a voice one,
 * with its overtones. Levels are in dB against the loudest class of the frame or bar, or against what is named.
 * @param start of the bar
 * @param end of the bar
 */
export function chordCues({ chroma, meanPower }: FrontEnd, start: Seconds, end: Seconds): number[] {
  const { values, rate, rows } = chroma;
  const first = Math.max(0, Math.ceil(start * rate));
  const last = Math.min(rows, Math.max(Math.ceil(end * rate), first + 1));
  const frames = last - first;
  if (frames <= 0) return CHORD_CUES.map(() => 0);
  const floor = meanPower * FLOOR;
  const decibels = (power: number, against: number) => 10 * Math.log10((power + floor) / (against + floor));
  const { mean, loudest, together, toBar, toLast } = overFrames(values.subarray(first * 12, last * 12), floor);
  const total = mean.reduce((a, v) => a + v, 0);
  const held = new Float64Array(12);
  const usual = new Float64Array(12);
  for (let c = 0; c < 12; c++) {
    const course = courseOf(values, first, frames, c).sort();
    held[c] = course[Math.floor(0.2 * (frames - 1))];
    usual[c] = course[Math.floor(0.5 * (frames - 1))];
  }
  const h = descending(held);
  const u = descending(usual);
  const m = descending(mean);
  return [
    ...together,
    Math.max(...loudest) / frames,
    toBar,
    toLast,
    ...[h[0], h[1], h[2]].map((v) => decibels(v, total)),
    ...[h[0], h[2], u[2]].map((v) => decibels(v, meanPower)),
    decibels(u[2], total),
    held.filter((v) => v > HELD * total).length,
    ...[m[2], m[3], m[5]].map((v) => decibels(v, m[0])),
  ];
}

/** What is counted frame by frame; the likenesses are means. */
function overFrames(rows: Float32Array, floor: number) {
  const frames = rows.length / 12;
  const kernels = borrowKernels(4 * rows.length + 8 * (frames * TOPS + 3 * 12 + 2));
  const [values, tops] = [kernels.floats(rows.length), kernels.doubles(frames * TOPS)];
  const [mean, loudest, few, likeness] = [12, 12, 12, 2].map((length) => kernels.doubles(length));
  values.view.set(rows);
  kernels.loops.chords(values.at, frames, tops.at, mean.at, loudest.at, likeness.at, few.at);
  const [toBar, toLast] = likeness.view;
  return {
    mean: mean.view.slice(),
    loudest: loudest.view.slice(),
    together: togetherIn(tops.view, floor),
    toBar,
    toLast,
  };
}

/** The highest powers of a frame that are looked at. */
const TOPS = 5;

/** Mean levels of the second to the fifth of each frame's highest powers against the first. */
function togetherIn(tops: Float64Array, floor: number): Float64Array {
  const together = new Float64Array(TOPS - 1);
  const frames = tops.length / TOPS;
  for (let at = 0; at < tops.length; at += TOPS)
    for (let k = 1; k < TOPS; k++)
      together[k - 1] += (10 * Math.log10((tops[at + k] + floor) / (tops[at] + floor))) / frames;
  return together;
}

/** One pitch class in frame after frame. */
function courseOf(values: Float32Array, first: number, frames: number, c: number): Float64Array {
  const course = new Float64Array(frames);
  for (let i = 0; i < frames; i++) course[i] = values[(first + i) * 12 + c];
  return course;
}

/** Twelve values, the largest first: by insertion, which is quickest for so few. */
function descending(values: Float64Array): Float64Array {
  const sorted = new Float64Array(12);
  for (let i = 0; i < 12; i++) {
    let at = i;
    for (; at > 0 && sorted[at - 1] < values[i]; at--) sorted[at] = sorted[at - 1];
    sorted[at] = values[i];
  }
  return sorted;
}
