/** A Float32Array that grows as rows are appended. */
export interface Growing {
  readonly columns: number;
  rows: number;
  /** Makes room for one more row and returns the offset of its first value in `data`. */
  next(): number;
  data: Float32Array;
  /** The rows written so far; nothing can be appended after that. They are copied only where much room was spare. */
  finish(): Float32Array;
}

/** Share of the room that must be used to be handed over as it is. */
const WELL_USED = 0.9;

/** @param expectedRows a good guess spares the copies, at which the memory of a long track would be highest */
export function growing(columns: number, expectedRows = 4096): Growing {
  return {
    columns,
    rows: 0,
    data: new Float32Array(columns * Math.max(expectedRows, 16)),
    next() {
      const offset = this.rows * columns;
      if (offset + columns > this.data.length) {
        const bigger = new Float32Array(this.data.length * 2);
        bigger.set(this.data);
        this.data = bigger;
      }
      this.rows++;
      return offset;
    },
    finish() {
      const { data } = this;
      const end = this.rows * columns;
      this.data = new Float32Array(0);
      return end >= WELL_USED * data.length ? data.subarray(0, end) : data.slice(0, end);
    },
  };
}
