import type { FrontEnd } from '../signal/index.js';
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
  const mean = new Float64Array(12);
  const loudest = new Float64Array(12);
  const together = new Float64Array(4);
  const sorted = new Float64Array(12);
  for (let at = 0; at < rows.length; at += 12) {
    sortFrame(rows, at, sorted);
    addTogether(sorted, floor, frames, together);
    loudest[placeOf(rows, at, sorted[0])]++;
    addFrame(rows, at, frames, mean);
  }
  let toBar = 0;
  let toLast = 0;
  for (let at = 0; at < rows.length; at += 12) {
    toBar += cosine(rows, at, mean, 0) / frames;
    if (at > 0) toLast += cosine(rows, at, rows, at - 12) / (frames - 1);
  }
  return { mean, loudest, together, toBar, toLast };
}

/** Adds the level of the second to the fifth of sorted powers against the first. */
function addTogether(sorted: Float64Array, floor: number, frames: number, together: Float64Array): void {
  for (let k = 0; k < 4; k++) together[k] += (10 * Math.log10((sorted[k + 1] + floor) / (sorted[0] + floor))) / frames;
}

function addFrame(rows: Float32Array, at: number, frames: number, mean: Float64Array): void {
  for (let c = 0; c < 12; c++) mean[c] += rows[at + c] / frames;
}

function placeOf(rows: Float32Array, at: number, value: number): number {
  let c = 0;
  while (c < 11 && rows[at + c] !== value) c++;
  return c;
}

/** One pitch class in frame after frame. */
function courseOf(values: Float32Array, first: number, frames: number, c: number): Float64Array {
  const course = new Float64Array(frames);
  for (let i = 0; i < frames; i++) course[i] = values[(first + i) * 12 + c];
  return course;
}

/** A copy, the largest first. */
function descending(values: Float64Array): Float64Array {
  const sorted = new Float64Array(12);
  sortFrame(values, 0, sorted);
  return sorted;
}

/** Twelve powers from a place on, the largest first: by insertion, which is quickest for twelve. */
function sortFrame(values: Powers, from: number, sorted: Float64Array): void {
  for (let i = 0; i < 12; i++) {
    const value = values[from + i];
    let at = i;
    for (; at > 0 && sorted[at - 1] < value; at--) sorted[at] = sorted[at - 1];
    sorted[at] = value;
  }
}

type Powers = Float32Array | Float64Array;

/** Cosine of the angle between the twelve powers from a place on and twelve others; 0 where one side is silent. */
function cosine(a: Powers, atA: number, b: Powers, atB: number): number {
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < 12; i++) {
    const x = a[atA + i];
    const y = b[atB + i];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}
