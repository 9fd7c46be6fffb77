import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeWav } from '../../src/audio/index.js';
import type { PracticeSound } from '../../src/practice/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

export const RATE = 44_100;

/** A record whose bass and voice never meet another's: intro, main part, outro. */
export const PLAIN_RECORD: readonly SamplePart[] = [
  { function: 'intro', phrases: [16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'breakdown', phrases: [16], layers: ['harmony'] },
  { function: 'drop', phrases: [16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'outro', phrases: [16], layers: ['kick', 'percussion'] },
];

/** A decaying tone, as a click; made from its pitch alone. */
export function burst(pitch: number): Float32Array {
  return Float32Array.from({ length: 600 }, (_, i) => Math.sin((2 * Math.PI * pitch * i) / RATE) * Math.exp(-i / 120));
}

/** A file with a click on every beat of an analysis, placed between the samples by shifting its phase; ones are twice as loud. */
export async function clickRecord(folder: string, name: string, bpm: number, pitch: number): Promise<TrackAnalysis> {
  const analysis = sampleAnalysis(PLAIN_RECORD, { bpm, title: name, firstOne: 0.5 });
  const beats = analysis.beats.map((_, i) => 0.5 + (i * 60) / bpm);
  const samples = new Float32Array(Math.ceil((beats[beats.length - 1] + 2) * RATE));
  beats.forEach((time, i) => {
    const at = Math.ceil(time * RATE);
    for (let k = 0; k < 600; k++) {
      const x = at + k - time * RATE;
      samples[at + k] += (i % 4 === 0 ? 0.5 : 0.25) * Math.sin((2 * Math.PI * pitch * x) / RATE) * Math.exp(-x / 120);
    }
  });
  const file = join(folder, `${name}.wav`);
  await writeWav(file, [samples, samples], RATE);
  const loudness = { integratedLufs: -20, truePeakDbtp: -6, rangeLu: 1 };
  return { ...analysis, beats, source: { ...analysis.source, file }, loudness };
}

/** A file with a click at every time, placed between the samples. */
export async function writeClicks(file: string, times: readonly number[], pitch: number): Promise<void> {
  const samples = new Float32Array(Math.ceil((times[times.length - 1] + 2) * RATE));
  for (const time of times) {
    const at = Math.ceil(time * RATE);
    for (let k = 0; k < 600; k++) {
      const x = at + k - time * RATE;
      samples[at + k] += 0.4 * Math.sin((2 * Math.PI * pitch * x) / RATE) * Math.exp(-x / 120);
    }
  }
  await writeWav(file, [samples, samples], RATE);
}

/** A temporary folder for one test file. */
export async function tempFolder(): Promise<{ readonly folder: string; readonly remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-practice-'));
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) };
}

/** Where a click of a pitch lies near a time, in seconds: the highest correlation of its shape within ±60 ms. */
export function clickNear(samples: Float32Array, pitch: number, time: number, within = 0.06): number {
  const shape = burst(pitch);
  const quarter = Float32Array.from(shape, (_, i) => Math.cos((2 * Math.PI * pitch * i) / RATE) * Math.exp(-i / 120));
  let [best, at] = [-1, 0];
  for (let d = -Math.round(within * RATE); d <= within * RATE; d++) {
    const from = Math.round(time * RATE) + d;
    let [re, im] = [0, 0];
    for (let i = 0; i < shape.length; i++) {
      const x = samples[from + i] ?? 0;
      re += x * shape[i];
      im += x * quarter[i];
    }
    const power = re * re + im * im;
    if (power > best) [best, at] = [power, from];
  }
  return at / RATE;
}

/** Energy of a stretch, in seconds. */
export function energy(sound: Pick<PracticeSound, 'left'>, from: number, to: number): number {
  return sound.left.subarray(Math.round(from * RATE), Math.round(to * RATE)).reduce((sum, x) => sum + x * x, 0);
}
