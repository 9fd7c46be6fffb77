import type { CurveSet } from '../units/index.js';

/** Power below this share of a column's mean counts as nothing (−20 dB): reverberation and noise stay out. */
const FLOOR = 0.01;

/** Up to half an hour they are kept, 33 MB; of longer music they are worked out anew wherever they are read. */
const KEPT_ROWS = 180_000;

/** Rows that are worked out together at least. */
const BLOCK_ROWS = 2048;

/** log(1 + power / floor) of every value of the coarse bands, the floor being a hundredth of its column's mean. */
export interface LogPowers {
  readonly columns: number;
  readonly rows: number;
  /** The rows [from, to), `columns` values each; good until the next are read. Cheapest in order. */
  read(from: number, to: number): Float32Array;
}

/**
 * Log powers of a front end's bands.
 * @param keptRows music of no more rows is worked out once
 */
export function logPowers(bands: CurveSet, keptRows = KEPT_ROWS): LogPowers {
  const { columns, rows } = bands;
  const scale = scales(bands);
  let first = 0;
  let last = rows <= keptRows ? rows : 0;
  let values = new Float32Array(last * columns);
  fill(bands, scale, first, values);
  return {
    columns,
    rows,
    read(from, to) {
      if (from < first || to > last) {
        first = from;
        last = Math.min(rows, Math.max(to, from + BLOCK_ROWS));
        const length = (last - first) * columns;
        if (values.length < length) values = new Float32Array(length);
        fill(bands, scale, first, values.subarray(0, length));
      }
      return values.subarray((from - first) * columns, (to - first) * columns);
    },
  };
}

function scales({ values, columns, rows }: CurveSet): Float64Array {
  const mean = new Float64Array(columns);
  for (let r = 0, i = 0; r < rows; r++) for (let c = 0; c < columns; c++, i++) mean[c] += values[i];
  return mean.map((m) => (m > 0 ? rows / m / FLOOR : 0));
}

function fill({ values, columns }: CurveSet, scale: Float64Array, first: number, out: Float32Array): void {
  const from = first * columns;
  for (let i = 0; i < out.length; i += columns)
    for (let c = 0; c < columns; c++) out[i + c] = Math.log(1 + values[from + i + c] * scale[c]);
}
