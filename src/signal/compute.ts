import type { CurveSet } from '../units/index.js';
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
import { createFineMeter, createStereoMeter } from './meters.js';
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
  const coarse = createBands(bands);
  const stereoMeter = createStereoMeter(stereo);
  const fineMeter = createFineMeter(fine);
  // Used again for every block: a fresh array each would cost more in collecting garbage than the sums themselves.
  let room = { mid: new Float32Array(0), side: new Float32Array(0) };
  let total = 0;
  let energy = 0;

  return {
    push(left, right) {
      if (room.mid.length < left.length)
        room = { mid: new Float32Array(left.length), side: new Float32Array(left.length) };
      const mid = room.mid.subarray(0, left.length);
      const side = left === right ? null : room.side.subarray(0, left.length);
      const sum = side ? splitStereo(left, right, mid, side) : copyMono(left, mid);
      // One bad sample spoils the sum: only then is it worth looking at each.
      energy += Number.isFinite(sum) ? sum : mended(mid, side, left, right);
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

/** Fills middle and side of two channels; returns the energy of the middle. */
function splitStereo(left: Float32Array, right: Float32Array, mid: Float32Array, side: Float32Array): number {
  const n = mid.length;
  let [even, odd] = [0, 0];
  // Two sums side by side: an addition need not wait for the one before.
  for (let i = 0; i < n; i += 2) {
    const m = (left[i] + right[i]) * 0.5;
    mid[i] = m;
    side[i] = (left[i] - right[i]) * 0.5;
    even += m * m;
    if (i + 1 === n) break;
    const k = (left[i + 1] + right[i + 1]) * 0.5;
    mid[i + 1] = k;
    side[i + 1] = (left[i + 1] - right[i + 1]) * 0.5;
    odd += k * k;
  }
  return even + odd;
}

function copyMono(samples: Float32Array, mid: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < mid.length; i++) {
    mid[i] = samples[i];
    sum += samples[i] * samples[i];
  }
  return sum;
}

/** Puts zero in place of samples that are no numbers; returns the energy of the middle. */
function mended(mid: Float32Array, side: Float32Array | null, left: Float32Array, right: Float32Array): number {
  let energy = 0;
  for (let i = 0; i < mid.length; i++) {
    const l = Number.isFinite(left[i]) ? left[i] : 0;
    const r = Number.isFinite(right[i]) ? right[i] : 0;
    mid[i] = (l + r) / 2;
    if (side) side[i] = (l - r) / 2;
    energy += mid[i] * mid[i];
  }
  return energy;
}

function curveSet(rows: Growing, rate: number, start: number): CurveSet {
  return { values: rows.finish(), columns: rows.columns, rows: rows.rows, rate, start };
}

/** Power per band of the coarse frames. */
function createBands(bands: Growing) {
  const bin = ANALYSIS_RATE / COARSE.window;
  // Bins of band b: firstBin[b] … firstBin[b + 1] − 1.
  const firstBin = BAND_EDGES.map((edge) => Math.ceil(edge / bin));
  const columns = BAND_COUNT;
  const powerOf = createPowerSpectrum(COARSE.window, firstBin[columns] - 1);
  return createFramer(COARSE.window, COARSE.hop, (frame) => {
    const power = powerOf(frame);
    const at = bands.next();
    const { data } = bands;
    for (let b = 0; b < columns; b++) {
      let sum = 0;
      for (let k = firstBin[b]; k < firstBin[b + 1]; k++) sum += power[k];
      data[at + b] = sum;
    }
  });
}
