/** A Float32Array that grows as rows are appended. */
export interface Growing {
  readonly columns: number;
  rows: number;
  /** Makes room for one more row and returns the offset of its first value in `data`. */
  next(): number;
  data: Float32Array;
  /** The rows written so far, without the spare room. */
  finish(): Float32Array;
}

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
      return this.data.slice(0, this.rows * columns);
    },
  };
}
