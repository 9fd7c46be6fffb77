import { bandColumns, type FrontEnd } from '../signal/index.js';
import type { CurveSet, Hertz, Seconds } from '../units/index.js';
import type { LogPowers } from './log-powers.js';
import { onsetBands, sampleAt, smoothedInPlace, type OnsetCurves } from './onsets.js';

/** Bands in which a beat's onsets are read (Hz). */
const STROKE_BANDS: readonly (readonly [Hertz, Hertz])[] = [
  [20, 80],
  [80, 150],
  [150, 500],
  [500, 1800],
  [1800, 5000],
  [5000, 16_000],
];

/** Up to here a spectrum counts as low (Hz). */
const LOW: Hertz = 200;

/** What is heard in each beat of a grid: row b is the beat that starts at beats[b]; rows = beats − 1. */
export interface BeatFeatures {
  readonly count: number;
  /** Mean log power of every coarse band, `columns` a row. */
  readonly spectrum: Float64Array;
  readonly columns: number;
  /** The first `lowColumns` of them are the low band. */
  readonly lowColumns: number;
  /** Mean chroma, scaled to length 1, twelve a row. */
  readonly chroma: Float64Array;
  /** Onset strength on the beat and half-way to the next, one array a band of STROKE_BANDS. */
  readonly onBeat: readonly Float64Array[];
  readonly offBeat: readonly Float64Array[];
  /** The same a quarter and three quarters of the way. */
  readonly sixteenths: readonly Float64Array[];
}

/** Means of the front end over each beat, and onset strengths at fixed places in it. */
export function beatFeatures(
  frontEnd: FrontEnd,
  logs: LogPowers,
  onsets: OnsetCurves,
  beats: ArrayLike<Seconds>,
): BeatFeatures {
  const { columns } = frontEnd.bands;
  const count = Math.max(0, beats.length - 1);
  const spectrum = beatMeans(frontEnd.bands, logs, beats);
  const chroma = beatMeans(frontEnd.chroma, rootPower(frontEnd.chroma), beats);
  for (let b = 0; b < count; b++) normaliseRow(chroma, b * 12, 12);
  const strokes = strokesOf(logs);
  const { rate, start } = onsets;
  const at = (curve: Float32Array, place: number) => {
    const out = new Float64Array(count);
    for (let b = 0; b < count; b++) out[b] = sampleAt(curve, rate, start, beats[b] + place * (beats[b + 1] - beats[b]));
    return out;
  };
  return {
    count,
    spectrum,
    columns,
    lowColumns: bandColumns(0, LOW).last,
    chroma,
    onBeat: strokes.map((c) => at(c, 0)),
    offBeat: strokes.map((c) => at(c, 0.5)),
    sixteenths: [0.25, 0.75].flatMap((place) => strokes.map((c) => at(c, place))),
  };
}

const known = new WeakMap<LogPowers, readonly Float32Array[]>();

/** Onset strengths in the bands of strokes: once a track, however many grids are tried on it. */
function strokesOf(logs: LogPowers): readonly Float32Array[] {
  let strokes = known.get(logs);
  if (!strokes) known.set(logs, (strokes = onsetBands(logs, STROKE_BANDS).map(smoothedInPlace)));
  return strokes;
}

/** Mean of every column over each beat; rows that straddle a beat count by their centre. */
function beatMeans(
  { columns, rows, rate, start }: CurveSet,
  set: Pick<LogPowers, 'read'>,
  beats: ArrayLike<Seconds>,
): Float64Array {
  const count = Math.max(0, beats.length - 1);
  const out = new Float64Array(count * columns);
  for (let b = 0; b < count; b++) {
    const from = Math.max(0, Math.round((beats[b] - start) * rate));
    const to = Math.min(rows, Math.max(from + 1, Math.round((beats[b + 1] - start) * rate)));
    if (to > from) addMeans(set.read(from, to), columns, out, b * columns);
  }
  return out;
}

function addMeans(values: Float32Array, columns: number, out: Float64Array, at: number): void {
  const rows = values.length / columns;
  for (let row = 0; row < values.length; row += columns)
    for (let c = 0; c < columns; c++) out[at + c] += values[row + c] / rows;
}

/** The root of each power, row by row where it is read. */
function rootPower({ values, columns }: CurveSet): Pick<LogPowers, 'read'> {
  return { read: (from, to) => values.slice(from * columns, to * columns).map((v) => Math.sqrt(v)) };
}

function normaliseRow(values: Float64Array, from: number, n: number): void {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[from + i] ** 2;
  const scale = sum > 0 ? 1 / Math.sqrt(sum) : 0;
  for (let i = 0; i < n; i++) values[from + i] *= scale;
}
