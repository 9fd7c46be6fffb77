import { BAND_COUNT, BAND_EDGES, createKernels, type FrontEnd } from '../signal/index.js';
import type { Hertz } from '../units/index.js';

/** Edges of the frequency groups in which the form is judged: sub-bass and kick, bass, then about two an octave. */
export const GROUP_EDGES: readonly Hertz[] = [10, 60, 110, 220, 400, 700, 1200, 2000, 3400, 5500, 8000, 11_500, 16_001];
export const GROUPS = GROUP_EDGES.length - 1;

/** Frames that are worked out together: long music needs no more memory for them. */
export const BLOCK = 2048;

/** Power of the frequency groups in each coarse frame, worked out where it is read; cheapest in order. */
export interface GroupedFrames {
  readonly count: number;
  /** The frame with which the values of `around` begin. */
  readonly first: number;
  /** `GROUPS` values a frame, of the block of frames that one lies in; good until another block is read. */
  around(frame: number): Float32Array;
}

/** Adds up the bands of a front end by their groups. */
export function createGroupedFrames({ bands }: FrontEnd): GroupedFrames {
  const most = Math.min(BLOCK, bands.rows);
  const kernels = createKernels(4 * (most * (GROUPS + BAND_COUNT) + BAND_COUNT));
  const groupOf = kernels.integers(groupsOfBands());
  const rows = kernels.floats(most * BAND_COUNT);
  const { at, view: values } = kernels.floats(most * GROUPS);
  let first = -BLOCK;
  return {
    count: bands.rows,
    get first() {
      return first;
    },
    around(frame) {
      if (frame < first || frame >= first + BLOCK) {
        first = frame - (frame % BLOCK);
        const count = Math.min(BLOCK, bands.rows - first);
        values.fill(0);
        rows.view.set(bands.values.subarray(first * BAND_COUNT, (first + count) * BAND_COUNT));
        kernels.loops.grouped(rows.at, count, BAND_COUNT, groupOf.at, GROUPS, at);
      }
      return values;
    },
  };
}

function groupsOfBands(): Int8Array {
  const groupOf = new Int8Array(BAND_COUNT);
  for (let k = 0; k < BAND_COUNT; k++) {
    const centre = Math.sqrt(Math.max(BAND_EDGES[k], 1) * BAND_EDGES[k + 1]);
    let g = 0;
    while (g < GROUPS - 1 && centre >= GROUP_EDGES[g + 1]) g++;
    groupOf[k] = g;
  }
  return groupOf;
}
