import { Buffer } from 'node:buffer';
import { run } from '../../src/cli/run.js';
import type { Io } from '../../src/cli/io.js';

/** What a command did. */
export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, as from a pipe or (with `columns`) as on a terminal. */
export async function barwise(
  argv: readonly string[],
  options: { columns?: number; env?: Io['env']; signal?: AbortSignal } = {},
): Promise<Outcome> {
  let [out, err] = ['', ''];
  const code = await run(argv, {
    stdout: { write: (text) => (out += text), isTTY: options.columns !== undefined, columns: options.columns },
    stderr: { write: (text) => (err += text) },
    env: options.env ?? {},
    signal: options.signal ?? new AbortController().signal,
  });
  return { code, out, err };
}

/** Sixteen bars of a kick on every beat and a tone that changes every four bars, as a mono WAV of 16 bits. */
export function clubWav(bpm = 120, bars = 32, rate = 22_050): Buffer {
  const beat = 60 / bpm;
  const samples = new Float32Array(Math.round(rate * beat * 4 * bars));
  for (let b = 0; b < bars * 4; b++) {
    const at = Math.round(b * beat * rate);
    for (let i = 0; i < rate * 0.12; i++) {
      const t = i / rate;
      samples[at + i] += 0.7 * Math.sin(2 * Math.PI * (50 * t + 6 * (1 - Math.exp(-t * 40)))) * Math.exp(-t * 25);
    }
    if (b % 2 === 1)
      for (let i = 0; i < rate * 0.05; i++) samples[at + i] += 0.2 * noise(i) * Math.exp(-i / (rate * 0.01));
  }
  for (let i = 0; i < samples.length; i++) {
    const bar = Math.floor(i / rate / (beat * 4));
    const pitch = 220 * 2 ** ([0, 5, 7, 3][Math.floor(bar / 4) % 4] / 12);
    if (Math.floor(bar / 8) % 2 === 1) samples[i] += 0.12 * Math.sin((2 * Math.PI * pitch * i) / rate);
  }
  return wavOf(samples, rate);
}

/** White noise, the same every time. */
export function noiseWav(seconds: number, level = 0.3, rate = 22_050): Buffer {
  return wavOf(
    Float32Array.from({ length: seconds * rate }, (_, i) => level * noise(i)),
    rate,
  );
}

function noise(i: number): number {
  const x = Math.sin(i * 12.9898 + 78.233) * 43_758.5453;
  return 2 * (x - Math.floor(x)) - 1;
}

/** A mono WAV file of 16 bits. */
export function wavOf(samples: Float32Array, rate: number): Buffer {
  const file = Buffer.alloc(44 + samples.length * 2);
  file.write('RIFF', 0);
  file.writeUInt32LE(36 + samples.length * 2, 4);
  file.write('WAVEfmt ', 8);
  file.writeUInt32LE(16, 16);
  file.writeUInt16LE(1, 20);
  file.writeUInt16LE(1, 22);
  file.writeUInt32LE(rate, 24);
  file.writeUInt32LE(rate * 2, 28);
  file.writeUInt16LE(2, 32);
  file.writeUInt16LE(16, 34);
  file.write('data', 36);
  file.writeUInt32LE(samples.length * 2, 40);
  samples.forEach((s, i) => file.writeInt16LE(Math.round(Math.max(-1, Math.min(1, s)) * 32_767), 44 + i * 2));
  return file;
}
