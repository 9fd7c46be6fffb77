import { createDecimator } from './decimator.js';
import { ANALYSIS_RATE, CHROMA } from './frontend.js';
import { createFramer } from './frames.js';
import type { Growing } from './growing.js';
import type { Kernels, Room } from './kernels/kernels.js';
import { createSpectrum } from './spectrum.js';

/** Reference pitch, ISO 16: A4 = 440 Hz. */
const A4 = 440;

/** Streams samples at the analysis rate into rows of power per pitch class (C first). */
export function createChroma(
  kernels: Kernels,
  rows: Growing,
  most: number,
): { push(samples: Room<Float32Array>, length: number): void; finish(): void } {
  const rate = ANALYSIS_RATE / CHROMA.decimation;
  const decimate = createDecimator(kernels, most);
  const map = pitchMap(rate);
  const [bins, classes] = [kernels.integers(map.bins), kernels.integers(map.classes)];
  const weights = kernels.doubles(map.weights);
  const sums = kernels.floats(12);
  const spectrumOf = createSpectrum(kernels, CHROMA.window);
  const framer = createFramer(kernels, CHROMA.window, CHROMA.hop, most, (frame) => {
    sums.view.fill(0);
    kernels.loops.classes(spectrumOf(frame).at, map.bins.length, bins.at, classes.at, weights.at, sums.at);
    const at = rows.next();
    rows.data.set(sums.view, at);
  });
  return {
    push(samples, length) {
      const count = decimate(samples, length);
      framer.push(decimate.kept, count);
    },
    finish: () => framer.finish(),
  };
}

/** Each bin's pitch class and a weight that falls to zero half a semitone off the tempered pitch. */
function pitchMap(rate: number): { bins: number[]; classes: number[]; weights: number[] } {
  const bins: number[] = [];
  const classes: number[] = [];
  const weights: number[] = [];
  for (let k = 1; k < CHROMA.window / 2; k++) {
    const f = (k * rate) / CHROMA.window;
    if (f < CHROMA.lowest || f > CHROMA.highest) continue;
    const pitch = 69 + 12 * Math.log2(f / A4);
    const nearest = Math.round(pitch);
    const off = Math.abs(pitch - nearest) * 2;
    bins.push(k);
    classes.push(((nearest % 12) + 12) % 12);
    weights.push(Math.cos((off * Math.PI) / 2) ** 2);
  }
  return { bins, classes, weights };
}
