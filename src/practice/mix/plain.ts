import { RATE, silence, type Stereo } from '../sound/stereo.js';
import { BASS_Q, BASS_UP_TO, levelAt, type Envelope, type Strand } from './graph.js';

/** Frames between two points at which an envelope is read; between them it runs straight. */
const STEP = 64;

/** Mixes strands as the audio context does, for where the native library cannot be loaded. */
export function mixPlainly(strands: readonly Strand[], frames: number): Stereo {
  const out = silence(frames);
  for (const { sound, whole, withoutBass } of strands) {
    for (const side of ['left', 'right'] as const) {
      addTo(out[side], sound[side], whole);
      if (withoutBass !== undefined) addTo(out[side], highPass(highPass(sound[side])), withoutBass);
    }
  }
  return out;
}

function addTo(out: Float32Array, samples: Float32Array, envelope: Envelope): void {
  const end = Math.min(out.length, samples.length);
  for (let from = 0; from < end; from += STEP) {
    const to = Math.min(end, from + STEP);
    const start = levelAt(envelope, from / RATE);
    const slope = (levelAt(envelope, to / RATE) - start) / (to - from);
    if (start === 0 && slope === 0) continue;
    for (let i = from; i < to; i++) out[i] += samples[i] * (start + slope * (i - from));
  }
}

/** High-pass filter of second order, coefficients as in the Web Audio API (W3C), "Filters Characteristics". */
export function highPass(samples: Float32Array): Float32Array {
  const omega = (2 * Math.PI * BASS_UP_TO) / RATE;
  const alpha = Math.sin(omega) / (2 * 10 ** (BASS_Q / 20));
  const cosine = Math.cos(omega);
  const a0 = 1 + alpha;
  const b0 = (1 + cosine) / 2 / a0;
  const b1 = -(1 + cosine) / a0;
  const [a1, a2] = [(-2 * cosine) / a0, (1 - alpha) / a0];
  const out = new Float32Array(samples.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let i = 0; i < samples.length; i++) {
    const x = samples[i];
    const y = b0 * x + b1 * x1 + b0 * x2 - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    out[i] = y;
  }
  return out;
}
