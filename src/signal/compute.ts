import type { CurveSet, Hertz, Seconds } from '../units/index.js';
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
import { createKernels, type Kernels, type Room } from './kernels/kernels.js';
import { createFineMeter, createStereoMeter } from './meters.js';
import { createSpectrum } from './spectrum.js';

/** Takes samples at the analysis rate block by block and gives the front end at the end. */
export interface FrontEndBuilder {
  /** @param left, right samples at 44.1 kHz, equally long; pass the same array twice for mono. */
  push(left: Float32Array, right: Float32Array): void;
  finish(): FrontEnd;
}

/** Frames that are worked on at a time: few enough for all of them to stay in the processor's cache. */
const CHUNK = 8192;

/** Rows that may come beyond what the length lets expect. */
const SPARE_ROWS = 64;

/**
 * Starts a front end, once `loadFft` is done. Non-finite samples count as zero.
 * @param seconds how long the track will probably be; only the need for memory depends on it
 */
export function createFrontEnd(seconds?: Seconds): FrontEndBuilder {
  const kernels = createKernels();
  const [left, right, mid, side] = Array.from({ length: 4 }, () => kernels.floats(CHUNK));
  const expected = (rate: Hertz) => (seconds === undefined ? undefined : Math.ceil(seconds * rate) + SPARE_ROWS);
  const bands = growing(BAND_COUNT, expected(COARSE.rate));
  const stereo = growing(2, expected(COARSE.rate));
  const fine = growing(3, expected(FINE.rate));
  const chromaRows = growing(12, expected(CHROMA.rate));
  const chroma = createChroma(kernels, chromaRows, CHUNK);
  const coarse = createBands(kernels, bands, CHUNK);
  const stereoMeter = createStereoMeter(kernels, stereo, CHUNK);
  const fineMeter = createFineMeter(kernels, fine, CHUNK);
  let total = 0;
  let energy = 0;

  function take(length: number, mono: boolean): void {
    const sum = kernels.loops.split(left.at, mono ? left.at : right.at, mid.at, side.at, length);
    // One bad sample spoils the sum: only then is it worth looking at each.
    const whole = Number.isFinite(sum)
      ? sum
      : mended(mid.view, side.view, left.view, mono ? left.view : right.view, length);
    energy += whole;
    total += length;
    coarse.push(mid, length);
    stereoMeter(mid, side, length);
    fineMeter(mid, length);
    chroma.push(mid, length);
  }

  return {
    push(l, r) {
      for (let from = 0; from < l.length; from += CHUNK) {
        const to = Math.min(l.length, from + CHUNK);
        left.view.set(l.subarray(from, to));
        if (l !== r) right.view.set(r.subarray(from, to));
        take(to - from, l === r);
      }
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

/** Puts zero in place of samples that are no numbers; returns the energy of the middle. */
function mended(
  mid: Float32Array,
  side: Float32Array,
  left: Float32Array,
  right: Float32Array,
  length: number,
): number {
  let energy = 0;
  for (let i = 0; i < length; i++) {
    const l = Number.isFinite(left[i]) ? left[i] : 0;
    const r = Number.isFinite(right[i]) ? right[i] : 0;
    mid[i] = (l + r) / 2;
    side[i] = (l - r) / 2;
    energy += mid[i] * mid[i];
  }
  return energy;
}

function curveSet(rows: Growing, rate: number, start: number): CurveSet {
  return { values: rows.finish(), columns: rows.columns, rows: rows.rows, rate, start };
}

/** Power per band of the coarse frames. */
function createBands(kernels: Kernels, bands: Growing, chunk: number) {
  const bin = ANALYSIS_RATE / COARSE.window;
  // Bins of band b: edges[b] … edges[b + 1] − 1.
  const edges = kernels.integers(BAND_EDGES.map((edge) => Math.ceil(edge / bin)));
  const spectrumOf = createSpectrum(kernels, COARSE.window);
  // Rows are gathered in the loops' memory and handed over together.
  const most = Math.ceil((COARSE.window + chunk) / COARSE.hop) + 1;
  const room = kernels.floats(most * BAND_COUNT);
  let rows = 0;
  const handOver = () => {
    if (rows > 0) bands.append(room.view.subarray(0, rows * BAND_COUNT));
    rows = 0;
  };
  const framer = createFramer(kernels, COARSE.window, COARSE.hop, chunk, (frame) => {
    if (rows === most) handOver();
    kernels.loops.bands(spectrumOf(frame).at, edges.at, BAND_COUNT, room.at + rows++ * ROW_BYTES);
  });
  return {
    push(samples: Room<Float32Array>, length: number) {
      framer.push(samples, length);
      handOver();
    },
    finish() {
      framer.finish();
      handOver();
    },
  };
}

const ROW_BYTES = BAND_COUNT * Float32Array.BYTES_PER_ELEMENT;
