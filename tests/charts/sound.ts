import { createFrontEnd, ANALYSIS_RATE, type FrontEnd } from '../../src/signal/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import type { Layer } from '../../src/units/index.js';

/** Plain tones and bursts where an analysis says that layers play: enough sound to draw curves of it. */
export function soundOf(analysis: TrackAnalysis): FrontEnd {
  const frames = Math.round(analysis.source.durationSeconds * ANALYSIS_RATE);
  const samples = new Float32Array(frames);
  let seed = 1;
  const noise = () => ((seed = (seed * 1664525 + 1013904223) >>> 0) / 2 ** 31 - 1) * 0.5;
  const burst = (start: number, length: number, wave: (t: number) => number) => {
    const first = Math.round(start * ANALYSIS_RATE);
    const last = Math.min(frames, first + Math.round(length * ANALYSIS_RATE));
    for (let i = Math.max(first, 0); i < last; i++) samples[i] += wave((i - first) / ANALYSIS_RATE);
  };
  const sounds: Record<Layer, (time: number, beat: number, length: number, bar: number) => void> = {
    kick: (t) => burst(t, 0.15, (s) => 0.8 * Math.exp(-s * 30) * Math.sin(2 * Math.PI * 55 * s)),
    bass: (t, _, d) => burst(t + d / 2, d / 2, (s) => 0.3 * Math.sin(2 * Math.PI * 82 * s)),
    percussion: (t, beat, d) => {
      burst(t + d / 2, 0.05, (s) => 0.2 * Math.exp(-s * 60) * noise());
      if (beat % 2 === 1) burst(t, 0.1, (s) => 0.4 * Math.exp(-s * 30) * noise());
    },
    harmony: (t, _, d, bar) => {
      const root = [220, 174.6, 261.6, 196][bar % 4];
      burst(t, d, (s) => 0.08 * (Math.sin(2 * Math.PI * root * s) + Math.sin(2 * Math.PI * root * 1.5 * s)));
    },
    voice: (t, _, d) => burst(t, d * 0.8, (s) => 0.1 * Math.sin(2 * Math.PI * (700 + 60 * Math.sin(40 * s)) * s)),
  };
  let at = 0;
  analysis.bars.forEach((bar, i) => {
    for (let b = 0; b < bar.beats; b++, at++) {
      const time = analysis.beats[at];
      const length = (analysis.beats[at + 1] ?? time + 0.5) - time;
      for (const layer of Object.keys(sounds) as Layer[])
        if ((analysis.layers[layer][i] ?? 0) > 0.5) sounds[layer](time, b, length, i);
    }
  });
  const builder = createFrontEnd();
  builder.push(samples, samples);
  return builder.finish();
}
