import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createFrontEnd, FRONT_END_ID, loadFft, type FrontEnd } from '../../src/signal/index.js';
import type { CurveSet } from '../../src/units/index.js';

await loadFft();

/** A development song's truth as far as the beat grid needs it. */
export interface SongTruth {
  readonly id: string;
  readonly group: 'dance' | 'other' | 'odd' | 'played';
  readonly confidence: string;
  readonly bpm: number;
  readonly meter: string;
  readonly beats: number[];
  readonly downbeats: number[];
}

/** Who made a song and from which kind of source, read off its id: folds are split by them. */
export function makerOf(id: string): { maker: string; source: string } {
  const [source, name] = id.split('-');
  const aliases: Record<string, string> = { alf42red: 'capdan', gm: 'gmkit', tr808kit: 'gmkit', tutorial: 'tutorial' };
  return { maker: `${source}-${aliases[name] ?? name}`, source };
}

/** Pieces whose truth is in a folder, by name. */
export function pieceIds(corpus: string): string[] {
  return readdirSync(join(corpus, 'truth'))
    .filter((f) => f.endsWith('.json'))
    .map((f) => f.slice(0, -5))
    .sort();
}

/** Those of them whose sound is there as well. */
export function songIds(corpus: string): string[] {
  return pieceIds(corpus).filter((id) => existsSync(join(corpus, 'audio', `${id}.wav`)));
}

export function readTruth(corpus: string, id: string): SongTruth {
  return JSON.parse(readFileSync(join(corpus, 'truth', `${id}.json`), 'utf8')) as SongTruth;
}

/** Samples of a 16-bit PCM WAV file, two channels (mono is doubled). */
export function readWav16(file: string): [Float32Array, Float32Array] {
  const bytes = readFileSync(file);
  let at = 12;
  let channels = 2;
  while (at + 8 <= bytes.length) {
    const id = bytes.toString('latin1', at, at + 4);
    const size = bytes.readUInt32LE(at + 4);
    if (id === 'fmt ') channels = bytes.readUInt16LE(at + 10);
    if (id === 'data') {
      const n = Math.floor(Math.min(size, bytes.length - at - 8) / 2 / channels);
      const left = new Float32Array(n);
      const right = channels > 1 ? new Float32Array(n) : left;
      const view = new DataView(bytes.buffer, bytes.byteOffset + at + 8);
      for (let i = 0; i < n; i++) {
        left[i] = view.getInt16(2 * i * channels, true) / 32768;
        if (channels > 1) right[i] = view.getInt16(2 * (i * channels + 1), true) / 32768;
      }
      return [left, right];
    }
    at += 8 + size + (size & 1);
  }
  throw new Error(`${file} has no data chunk.`);
}

export function frontEndOf(left: Float32Array, right: Float32Array): FrontEnd {
  const builder = createFrontEnd();
  for (let i = 0; i < left.length; i += 65_536)
    builder.push(left.subarray(i, i + 65_536), right.subarray(i, i + 65_536));
  return builder.finish();
}

/** The front end of a song, kept on disk between runs. */
export function cachedFrontEnd(corpus: string, id: string, cache: string): FrontEnd {
  mkdirSync(cache, { recursive: true });
  const file = join(cache, `${id}.${FRONT_END_ID}.bin`);
  if (existsSync(file)) return unpack(readFileSync(file));
  const frontEnd = frontEndOf(...readWav16(join(corpus, 'audio', `${id}.wav`)));
  writeFileSync(file, pack(frontEnd));
  return frontEnd;
}

const SETS = ['bands', 'stereo', 'fine', 'chroma'] as const;

export function pack(f: FrontEnd): Buffer {
  const head = Buffer.from(
    JSON.stringify({
      ...f,
      ...Object.fromEntries(SETS.map((s) => [s, { ...f[s], values: undefined }])),
    }),
  );
  const pad = Buffer.alloc((4 - ((head.length + 4) % 4)) % 4, 32);
  const size = Buffer.alloc(4);
  size.writeUInt32LE(head.length + pad.length);
  const parts = SETS.map((s) => Buffer.from(f[s].values.buffer, f[s].values.byteOffset, f[s].values.byteLength));
  return Buffer.concat([size, head, pad, ...parts]);
}

export function unpack(bytes: Buffer): FrontEnd {
  const size = bytes.readUInt32LE(0);
  const head = JSON.parse(bytes.toString('utf8', 4, 4 + size)) as FrontEnd;
  let at = 4 + size;
  const all = new Uint8Array(bytes).buffer;
  const sets = Object.fromEntries(
    SETS.map((s) => {
      const set = head[s];
      const values = new Float32Array(all, at, set.rows * set.columns);
      at += values.byteLength;
      return [s, { ...set, values }];
    }),
  );
  return { ...head, ...sets };
}

/** Whole rows of every curve are shared at multiples of this (s), so that a cut there needs no new front end. */
const CUT_UNIT = 0.08;

/** The front end of the song without its first seconds: rows are dropped, so only the first 46 ms differ from a real cut. */
export function cutFrontEnd(f: FrontEnd, seconds: number): FrontEnd {
  const cut = (set: CurveSet): CurveSet => {
    const drop = Math.round(seconds * set.rate);
    return { ...set, values: set.values.slice(drop * set.columns), rows: set.rows - drop };
  };
  return {
    ...f,
    duration: f.duration - seconds,
    bands: cut(f.bands),
    stereo: cut(f.stereo),
    fine: cut(f.fine),
    chroma: cut(f.chroma),
  };
}

/** The front end of the first seconds of a song. */
export function keepFrontEnd(f: FrontEnd, seconds: number): FrontEnd {
  const keep = (set: CurveSet): CurveSet => {
    const rows = Math.min(set.rows, Math.round(seconds * set.rate));
    return { ...set, values: set.values.slice(0, rows * set.columns), rows };
  };
  return {
    ...f,
    duration: Math.min(f.duration, seconds),
    bands: keep(f.bands),
    stereo: keep(f.stereo),
    fine: keep(f.fine),
    chroma: keep(f.chroma),
  };
}

/** A place in the middle at which every curve can be cut. */
export function halfPoint(duration: number): number {
  return Math.round(duration / 2 / CUT_UNIT) * CUT_UNIT;
}

export function cutTruth(t: SongTruth, seconds: number): SongTruth {
  const cut = (times: readonly number[]) => times.map((x) => x - seconds).filter((x) => x >= -0.005);
  return { ...t, beats: cut(t.beats), downbeats: cut(t.downbeats) };
}

/** A place in the first seconds (1…9 s, at most a fifth of the song), the same for the same id and seed. */
export function cutPoint(id: string, seed: number, duration: number): number {
  const digest = createHash('sha256').update(`${id}/${seed}`).digest();
  const share = digest.readUInt32LE(0) / 2 ** 32;
  const longest = Math.min(9, duration / 5);
  return Math.round((1 + share * (longest - 1)) / CUT_UNIT) * CUT_UNIT;
}
