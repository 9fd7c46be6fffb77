import { bandColumns, borrowKernels, type FrontEnd } from '../signal/index.js';
import type { CurveSet, Hertz, Seconds } from '../units/index.js';
import { atPlaces } from './beat-places.js';
import type { LogPowers } from './log-powers.js';
import { onsetBands, smoothedInPlace, type OnsetCurves } from './onsets.js';

/** Bands in which a beat's onsets are read (Hz). */
const STROKE_BANDS: readonly (readonly [Hertz, Hertz])[] = [
  [20, 80],
  [80, 150],
  [150, 500],
  [500, 1800],
  [1800, 5000],
  [5000, 16_000],
];

/** Places at which a beat's onsets are read. */
const PLACES = 4;

/** Rows of the front end that are read at a time. */
const MOST_ROWS = 128;

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
  // Four places of each beat: on it, and a quarter, a half and three quarters of the way.
  const read = strokes.map((curve) => atPlaces(curve, onsets, beats, PLACES));
  const at = (place: number) => read.map((values) => everyFourth(values, place));
  return {
    count,
    spectrum,
    columns,
    lowColumns: bandColumns(0, LOW).last,
    chroma,
    onBeat: at(0),
    offBeat: at(2),
    sixteenths: [...at(1), ...at(3)],
  };
}

const known = new WeakMap<LogPowers, readonly Float32Array[]>();

/** Onset strengths in the bands of strokes: once a track, however many grids are tried on it. */
function strokesOf(logs: LogPowers): readonly Float32Array[] {
  let strokes = known.get(logs);
  if (!strokes) known.set(logs, (strokes = onsetBands(logs, STROKE_BANDS).map(smoothedInPlace)));
  return strokes;
}

function everyFourth(values: Float64Array, from: number): Float64Array {
  const out = new Float64Array(values.length / PLACES);
  for (let b = 0, i = from; b < out.length; b++, i += PLACES) out[b] = values[i];
  return out;
}

/** Mean of every column over each beat; rows that straddle a beat count by their centre. */
function beatMeans(
  { columns, rows, rate, start }: CurveSet,
  set: Pick<LogPowers, 'read'>,
  beats: ArrayLike<Seconds>,
): Float64Array {
  const count = Math.max(0, beats.length - 1);
  const kernels = borrowKernels(8 * count * columns + 4 * MOST_ROWS * columns);
  const out = kernels.doubles(count * columns);
  const room = kernels.floats(MOST_ROWS * columns);
  for (let b = 0; b < count; b++) {
    const from = Math.max(0, Math.round((beats[b] - start) * rate));
    const to = Math.min(rows, Math.max(from + 1, Math.round((beats[b + 1] - start) * rate)));
    for (let r = from; r < to; r += MOST_ROWS) {
      const most = Math.min(MOST_ROWS, to - r);
      room.view.set(set.read(r, r + most));
      kernels.loops.gathered(room.at, most, columns, 1, to - from, out.at + 8 * b * columns);
    }
  }
  return out.view.slice();
}

/** The root of each power, row by row where it is read. */
function rootPower({ values, columns }: CurveSet): Pick<LogPowers, 'read'> {
  const room = new Float32Array(MOST_ROWS * columns);
  return {
    read(from, to) {
      setRoots(values, from * columns, to * columns, room);
      return room.subarray(0, (to - from) * columns);
    },
  };
}

function setRoots(values: Float32Array, from: number, to: number, out: Float32Array): void {
  for (let i = from; i < to; i++) out[i - from] = Math.sqrt(values[i]);
}

function normaliseRow(values: Float64Array, from: number, n: number): void {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[from + i] ** 2;
  const scale = sum > 0 ? 1 / Math.sqrt(sum) : 0;
  for (let i = 0; i < n; i++) values[from + i] *= scale;
}
