import { createDecimator } from './decimator.js';
import { ANALYSIS_RATE, CHROMA } from './frontend.js';
import { createFramer } from './frames.js';
import type { Growing } from './growing.js';
import { createPowerSpectrum } from './spectrum.js';

/** Reference pitch, ISO 16: A4 = 440 Hz. */
const A4 = 440;

/** Streams samples at the analysis rate into rows of power per pitch class (C first). */
export function createChroma(rows: Growing): { push(samples: Float32Array): void; finish(): void } {
  const rate = ANALYSIS_RATE / CHROMA.decimation;
  const decimate = createDecimator(CHROMA.decimation);
  const { bins, classes, weights } = pitchMap(rate);
  const powerOf = createPowerSpectrum(CHROMA.window, bins[bins.length - 1]);
  const framer = createFramer(CHROMA.window, CHROMA.hop, (frame) => {
    const power = powerOf(frame);
    const at = rows.next();
    for (let i = 0; i < bins.length; i++) rows.data[at + classes[i]] += weights[i] * power[bins[i]];
  });
  return {
    push: (samples) => framer.push(decimate(samples)),
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
