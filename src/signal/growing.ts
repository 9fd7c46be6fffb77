/** A Float32Array that grows as rows are appended. */
export interface Growing {
  readonly columns: number;
  rows: number;
  /** Makes room for one more row and returns the offset of its first value in `data`. */
  next(): number;
  /** Appends whole rows. */
  append(values: Float32Array): void;
  data: Float32Array;
  /** The rows written so far; nothing can be appended after that. They are copied only where much room was spare. */
  finish(): Float32Array;
}

/** Share of the room that must be used to be handed over as it is. */
const WELL_USED = 0.9;

/** The same array, or a copy at least twice as long where it does not hold `length` values. */
function roomFor(data: Float32Array, length: number): Float32Array {
  if (length <= data.length) return data;
  const bigger = new Float32Array(Math.max(length, data.length * 2));
  bigger.set(data);
  return bigger;
}

/** @param expectedRows a good guess spares the copies, at which the memory of a long track would be highest */
export function growing(columns: number, expectedRows = 4096): Growing {
  return {
    columns,
    rows: 0,
    data: new Float32Array(columns * Math.max(expectedRows, 16)),
    next() {
      const offset = this.rows * columns;
      this.data = roomFor(this.data, offset + columns);
      this.rows++;
      return offset;
    },
    append(values) {
      const offset = this.rows * columns;
      this.data = roomFor(this.data, offset + values.length);
      this.data.set(values, offset);
      this.rows += values.length / columns;
    },
    finish() {
      const { data } = this;
      const end = this.rows * columns;
      this.data = new Float32Array(0);
      return end >= WELL_USED * data.length ? data.subarray(0, end) : data.slice(0, end);
    },
  };
}
