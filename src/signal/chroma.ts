import { butterworth, createBlockFilter } from './biquad.js';
import { ANALYSIS_RATE, CHROMA } from './frontend.js';
import { createFramer } from './frames.js';
import type { Growing } from './growing.js';
import { createPowerSpectra } from './spectrum.js';

/** Reference pitch, ISO 16: A4 = 440 Hz. */
const A4 = 440;

/** Streams samples at the analysis rate into rows of power per pitch class (C first). */
export function createChroma(rows: Growing): { push(samples: Float32Array): void; finish(): void } {
  const rate = ANALYSIS_RATE / CHROMA.decimation;
  // 4 poles at 3.5 kHz: more than 24 dB down at the image of the highest pitch used (1.76 kHz) after decimation.
  const low1 = createBlockFilter(butterworth('low', 3500, ANALYSIS_RATE));
  const low2 = createBlockFilter(butterworth('low', 3500, ANALYSIS_RATE));
  const { bins, classes, weights } = pitchMap(rate);
  const spectra = createPowerSpectra(CHROMA.window, bins[bins.length - 1], (power) => {
    const at = rows.next();
    for (let i = 0; i < bins.length; i++) rows.data[at + classes[i]] += weights[i] * power[bins[i]];
  });
  const framer = createFramer(CHROMA.window, CHROMA.hop, (frame) => spectra.push(frame));
  let filtered = new Float64Array(0);
  let phase = 0;
  return {
    push(samples) {
      const n = samples.length;
      if (filtered.length < n) filtered = new Float64Array(n);
      low1(samples, filtered, n);
      low2(filtered, filtered, n);
      const kept = new Float32Array(Math.ceil(n / CHROMA.decimation) + 1);
      let count = 0;
      let i = (CHROMA.decimation - phase) % CHROMA.decimation;
      for (; i < n; i += CHROMA.decimation) kept[count++] = filtered[i];
      phase = (phase + n) % CHROMA.decimation;
      framer.push(kept.subarray(0, count));
    },
    finish() {
      framer.finish();
      spectra.flush();
    },
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
