import type { Hertz, Seconds } from '../units/index.js';

/** Complex Fourier coefficients of consecutive blocks of a curve at one frequency, phases against time 0. */
export interface Phasors {
  readonly frequency: Hertz;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Time of the middle of block 0 and distance between blocks. */
  readonly first: Seconds;
  readonly step: Seconds;
}

/** Σ o(t)·e^(−2πift) over blocks of `blockRows` rows. */
export function phasors(
  curve: Float32Array,
  rate: Hertz,
  start: Seconds,
  frequency: Hertz,
  blockRows: number,
): Phasors {
  const blocks = Math.max(1, Math.ceil(curve.length / blockRows));
  const re = new Float64Array(blocks);
  const im = new Float64Array(blocks);
  const turn = (-2 * Math.PI * frequency) / rate;
  const cosTurn = Math.cos(turn);
  const sinTurn = Math.sin(turn);
  for (let b = 0; b < blocks; b++) {
    const from = b * blockRows;
    const to = Math.min(from + blockRows, curve.length);
    const angle = -2 * Math.PI * ((frequency * (start + from / rate)) % 1);
    let c = Math.cos(angle);
    let s = Math.sin(angle);
    let sumRe = 0;
    let sumIm = 0;
    for (let i = from; i < to; i++) {
      sumRe += curve[i] * c;
      sumIm += curve[i] * s;
      const next = c * cosTurn - s * sinTurn;
      s = s * cosTurn + c * sinTurn;
      c = next;
    }
    re[b] = sumRe;
    im[b] = sumIm;
  }
  return { frequency, re, im, first: start + (blockRows - 1) / 2 / rate, step: blockRows / rate };
}

/** |X(f)| for a frequency close to that of the phasors, by turning each block's coefficient about its middle. */
export function magnitudeNear(p: Phasors, frequency: Hertz): number {
  const turn = -2 * Math.PI * (frequency - p.frequency) * p.step;
  const angle = -2 * Math.PI * (frequency - p.frequency) * p.first;
  let c = Math.cos(angle);
  let s = Math.sin(angle);
  const cosTurn = Math.cos(turn);
  const sinTurn = Math.sin(turn);
  let re = 0;
  let im = 0;
  for (let b = 0; b < p.re.length; b++) {
    re += p.re[b] * c - p.im[b] * s;
    im += p.re[b] * s + p.im[b] * c;
    const next = c * cosTurn - s * sinTurn;
    s = s * cosTurn + c * sinTurn;
    c = next;
  }
  return Math.hypot(re, im);
}
