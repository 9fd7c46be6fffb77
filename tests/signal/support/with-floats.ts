import { createKernels } from '../../../src/signal/index.js';

/** Bytes of the loops' memory, so that it need not grow beside what a test looks at. */
const ROOM = 1 << 21;

/** Loops with `values` in their memory, at `at`. */
export function withFloats(values: Float32Array) {
  const kernels = createKernels(ROOM);
  const room = kernels.floats(values.length);
  room.view.set(values);
  return { kernels, loops: kernels.loops, at: room.at };
}
