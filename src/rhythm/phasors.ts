import type { Hertz, Seconds } from '../units/index.js';
import { magnitudesByChirp } from './chirp.js';
import { magnitudeAt, magnitudesBeside, STATE, turnedSums } from './loops.js';

/** Complex Fourier coefficients of consecutive blocks of a curve at one frequency, phases against time 0. */
export interface Phasors {
  readonly frequency: Hertz;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Time of the middle of block 0 and distance between blocks. */
  readonly first: Seconds;
  readonly step: Seconds;
}

/** Σ o(t)·e^(−2πift) over blocks of `blockRows` rows, for each of several frequencies. */
export function phasors(
  curve: Float32Array,
  rate: Hertz,
  start: Seconds,
  frequencies: readonly Hertz[],
  blockRows: number,
): Phasors[] {
  const blocks = Math.max(1, Math.ceil(curve.length / blockRows));
  const out = frequencies.map((frequency): Phasors => ({
    frequency,
    re: new Float64Array(blocks),
    im: new Float64Array(blocks),
    first: start + (blockRows - 1) / 2 / rate,
    step: blockRows / rate,
  }));
  const states = new Float64Array(blocks * STATE.length);
  for (let k = 0; k < out.length; k += 2) {
    const pair = [out[k], out[k + 1] ?? out[k]] as const;
    const turnOf = ({ frequency }: Phasors) => (-2 * Math.PI * frequency) / rate;
    states.fill(0);
    pair.forEach(({ frequency }, lane) => setAngles(states, lane, frequency, (b) => start + (b * blockRows) / rate));
    turnedSums(curve, blockRows, [turnOf(pair[0]), turnOf(pair[1])], states);
    pair.forEach(({ re, im }, lane) => {
      for (let b = 0, at = lane; b < blocks; b++, at += STATE.length) {
        re[b] = states[at + STATE.re];
        im[b] = states[at + STATE.im];
      }
    });
  }
  return out;
}

/** The angles of a frequency where the blocks begin. */
function setAngles(states: Float64Array, lane: number, frequency: Hertz, startOf: (block: number) => Seconds): void {
  for (let b = 0, at = lane; at < states.length; b++, at += STATE.length) {
    const angle = -2 * Math.PI * ((frequency * startOf(b)) % 1);
    states[at + STATE.cos] = Math.cos(angle);
    states[at + STATE.sin] = Math.sin(angle);
  }
}

/** |X(f)| for a frequency close to that of the phasors, by turning each block's coefficient about its middle. */
export function magnitudeNear(p: Phasors, frequency: Hertz): number {
  const angle = -2 * Math.PI * (frequency - p.frequency);
  return magnitudeAt(p, angle * p.first, angle * p.step);
}

/** Products beyond which transforms are quicker than sums: a search through a quarter of an hour. */
const MANY = 1e6;

/**
 * |X| at `steps` frequencies above and as many below the phasors' own, `distance` apart.
 * @param out for each step from 0 on the magnitude above, then in the same order below: 2 · (steps + 1) values
 */
export function magnitudesAround(p: Phasors, distance: Hertz, steps: number, out: Float64Array): void {
  const angle = -2 * Math.PI * distance;
  if (p.re.length * steps > MANY) magnitudesByChirp(p, angle * p.step, steps, out);
  else magnitudesBeside(p, angle * p.first, angle * p.step, steps, out);
}
