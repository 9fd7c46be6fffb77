import { createBiquad, butterworth } from './biquad.js';
import { ANALYSIS_RATE, CHROMA } from './frontend.js';
import { createFramer } from './frames.js';
import { createPowerSpectrum } from './spectrum.js';
import type { Growing } from './growing.js';

/** Reference pitch, ISO 16: A4 = 440 Hz. */
const A4 = 440;

/** Streams samples at the analysis rate into rows of power per pitch class (C first). */
export function createChroma(rows: Growing): { push(samples: Float32Array): void; finish(): void } {
  const rate = ANALYSIS_RATE / CHROMA.decimation;
  // 4 poles at 3.5 kHz: more than 24 dB down at the image of the highest pitch used (1.76 kHz) after decimation.
  const low1 = createBiquad(butterworth('low', 3500, ANALYSIS_RATE));
  const low2 = createBiquad(butterworth('low', 3500, ANALYSIS_RATE));
  const spectrum = createPowerSpectrum(CHROMA.window);
  const { bins, classes, weights } = pitchMap(rate);
  const framer = createFramer(CHROMA.window, CHROMA.hop, (frame) => {
    const power = spectrum(frame);
    const at = rows.next();
    for (let i = 0; i < bins.length; i++) rows.data[at + classes[i]] += weights[i] * power[bins[i]];
  });
  let phase = 0;
  return {
    push(samples) {
      const kept = new Float32Array(Math.ceil((samples.length - phase) / CHROMA.decimation) + 1);
      let n = 0;
      for (let i = 0; i < samples.length; i++) {
        const y = low2(low1(samples[i]));
        if (phase === 0) kept[n++] = y;
        phase = (phase + 1) % CHROMA.decimation;
      }
      framer.push(kept.subarray(0, n));
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
