import type { CurveSet } from '../units/index.js';
import { butterworth, createBiquad } from './biquad.js';
import { createChroma } from './chroma.js';
import { createFramer } from './frames.js';
import {
  ANALYSIS_RATE,
  BAND_COUNT,
  BAND_EDGES,
  CHROMA,
  COARSE,
  FINE,
  FRONT_END_ID,
  type FrontEnd,
} from './frontend.js';
import { growing, type Growing } from './growing.js';
import { createPowerSpectrum } from './spectrum.js';

/** Takes samples at the analysis rate block by block and gives the front end at the end. */
export interface FrontEndBuilder {
  /** @param left, right samples at 44.1 kHz, equally long; pass the same array twice for mono. */
  push(left: Float32Array, right: Float32Array): void;
  finish(): FrontEnd;
}

/** Starts a front end. Non-finite samples count as zero. */
export function createFrontEnd(): FrontEndBuilder {
  const bands = growing(BAND_COUNT);
  const stereo = growing(2);
  const fine = growing(3);
  const chromaRows = growing(12);
  const chroma = createChroma(chromaRows);
  const coarse = createBandFramer(bands);
  const stereoMeter = createStereoMeter(stereo);
  const fineMeter = createFineMeter(fine);
  let total = 0;
  let energy = 0;

  return {
    push(left, right) {
      const mid = new Float32Array(left.length);
      const side = left === right ? null : new Float32Array(left.length);
      for (let i = 0; i < left.length; i++) {
        const l = Number.isFinite(left[i]) ? left[i] : 0;
        const r = Number.isFinite(right[i]) ? right[i] : 0;
        mid[i] = (l + r) / 2;
        if (side) side[i] = (l - r) / 2;
        energy += mid[i] * mid[i];
      }
      total += left.length;
      coarse.push(mid);
      stereoMeter(mid, side);
      fineMeter(mid);
      chroma.push(mid);
    },
    finish() {
      coarse.finish();
      chroma.finish();
      while (stereo.rows < bands.rows) stereo.next();
      return {
        id: FRONT_END_ID,
        duration: total / ANALYSIS_RATE,
        bands: curveSet(bands, COARSE.rate, 0),
        stereo: curveSet(stereo, COARSE.rate, 0),
        fine: curveSet(fine, FINE.rate, 0.5 / FINE.rate),
        chroma: curveSet(chromaRows, CHROMA.rate, 0),
        meanPower: energy / Math.max(total, 1),
      };
    },
  };
}

function curveSet(rows: Growing, rate: number, start: number): CurveSet {
  return { values: rows.finish(), columns: rows.columns, rows: rows.rows, rate, start };
}

function createBandFramer(bands: Growing) {
  const spectrum = createPowerSpectrum(COARSE.window);
  const bin = ANALYSIS_RATE / COARSE.window;
  const bandOfBin = new Int16Array(COARSE.window / 2 + 1).fill(-1);
  for (let k = 1; k < bandOfBin.length; k++) {
    const f = k * bin;
    if (f < BAND_EDGES[0] || f >= BAND_EDGES[BAND_COUNT]) continue;
    let b = 0;
    while (f >= BAND_EDGES[b + 1]) b++;
    bandOfBin[k] = b;
  }
  return createFramer(COARSE.window, COARSE.hop, (frame) => {
    const power = spectrum(frame);
    const at = bands.next();
    for (let k = 1; k < bandOfBin.length; k++) {
      const b = bandOfBin[k];
      if (b >= 0) bands.data[at + b] += power[k];
    }
  });
}

/** Power of middle and side over the 10 ms around each coarse frame's centre. */
function createStereoMeter(rows: Growing) {
  let mid = 0;
  let side = 0;
  let left = COARSE.hop / 2; // the first frame is centred on 0 and so has half a hop
  return (m: Float32Array, s: Float32Array | null) => {
    for (let i = 0; i < m.length; i++) {
      mid += m[i] * m[i];
      if (s) side += s[i] * s[i];
      if (--left <= 0) {
        const at = rows.next();
        rows.data[at] = mid / COARSE.hop;
        rows.data[at + 1] = side / COARSE.hop;
        mid = side = 0;
        left += COARSE.hop;
      }
    }
  };
}

/** Energies of whole milliseconds: first difference, below 150 Hz, above 5 kHz. */
function createFineMeter(rows: Growing) {
  const low = createBiquad(butterworth('low', 150, ANALYSIS_RATE));
  const high = createBiquad(butterworth('high', 5000, ANALYSIS_RATE));
  const perRow = ANALYSIS_RATE / FINE.rate;
  let previous = 0;
  let all = 0;
  let lowEnergy = 0;
  let highEnergy = 0;
  let count = 0;
  let edge = perRow;
  return (m: Float32Array) => {
    for (let i = 0; i < m.length; i++) {
      const x = m[i];
      const d = x - previous;
      const l = low(x);
      const h = high(x);
      previous = x;
      all += d * d;
      lowEnergy += l * l;
      highEnergy += h * h;
      if (++count >= edge) {
        const at = rows.next();
        rows.data[at] = all;
        rows.data[at + 1] = lowEnergy;
        rows.data[at + 2] = highEnergy;
        all = lowEnergy = highEnergy = 0;
        edge += perRow;
      }
    }
  };
}
