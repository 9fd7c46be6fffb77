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
  magnitudesBeside(p, frequency - p.frequency, PAIR);
  return PAIR[0];
}

const PAIR = new Float64Array(2);

/** |X| at the same distance above the phasors' frequency and below it, at little more than the cost of one. */
export function magnitudesBeside({ re, im, step, first }: Phasors, distance: Hertz, out: Float64Array): void {
  const turn = -2 * Math.PI * distance * step;
  const angle = -2 * Math.PI * distance * first;
  let c = Math.cos(angle);
  let s = Math.sin(angle);
  const cosTurn = Math.cos(turn);
  const sinTurn = Math.sin(turn);
  let [aboveRe, aboveIm, belowRe, belowIm] = [0, 0, 0, 0];
  for (let b = 0; b < re.length; b++) {
    const rc = re[b] * c;
    const is = im[b] * s;
    const rs = re[b] * s;
    const ic = im[b] * c;
    aboveRe += rc - is;
    aboveIm += rs + ic;
    belowRe += rc + is;
    belowIm += ic - rs;
    const next = c * cosTurn - s * sinTurn;
    s = s * cosTurn + c * sinTurn;
    c = next;
  }
  out[0] = Math.hypot(aboveRe, aboveIm);
  out[1] = Math.hypot(belowRe, belowIm);
}
