import { RATE } from '../voices/shapes.js';

/** Lengths of the four delays in samples, without a common divisor. */
const DELAYS = [1559, 1867, 2111, 2477];

/**
 * A room: four delays that feed each other through a matrix that keeps the power (Jot & Chaigne 1991, feedback delay
 * networks), damped at the top.
 */
export function room(send: Float32Array, seconds: number, damping: number): [Float32Array, Float32Array] {
  const lines = DELAYS.map((n) => new Float32Array(n));
  const gains = DELAYS.map((n) => 10 ** ((-3 * n) / RATE / seconds));
  const y = new Float64Array(4);
  const at = new Int32Array(4);
  const left = new Float32Array(send.length);
  const right = new Float32Array(send.length);
  for (let i = 0; i < send.length; i++) {
    for (let k = 0; k < 4; k++) {
      y[k] += (1 - damping) * (lines[k][at[k]] * gains[k] - y[k]);
    }
    const half = (y[0] + y[1] + y[2] + y[3]) / 2;
    for (let k = 0; k < 4; k++) {
      lines[k][at[k]] = send[i] + half - y[(k + 1) & 3];
      at[k] = at[k] + 1 === DELAYS[k] ? 0 : at[k] + 1;
    }
    left[i] = y[0] + y[2];
    right[i] = y[1] + y[3];
  }
  return [left, right];
}
