import { describe, expect, it } from 'vitest';
import { measure, steppedSine, stereo } from './signals.js';

// Signals and readings: EBU Tech 3341 and 3342, via a public test transcription.

/** EBU Tech 3341, table 1: 1 kHz stereo sine, peak dBFS; tolerance ±0.1 LU. */
const INTEGRATED = [
  { name: 'case 1', steps: [[20, -23]], lufs: -23 },
  { name: 'case 2', steps: [[20, -33]], lufs: -33 },
  { name: 'case 3', steps: [[10, -36], [60, -23], [10, -36]], lufs: -23 }, // prettier-ignore
  { name: 'case 4', steps: [[10, -72], [10, -36], [60, -23], [10, -36], [10, -72]], lufs: -23 }, // prettier-ignore
  { name: 'case 5', steps: [[20, -26], [20.1, -20], [20, -26]], lufs: -23 }, // prettier-ignore
];

/** EBU Tech 3341, table 1, cases 15 to 19: sine at a fraction of the rate, start phase in degrees; +0.2/−0.4 dB. */
const PEAKS = [
  { name: 'case 15', fraction: 4, phase: 0, amplitude: 0.5, dbtp: -6 },
  { name: 'case 16', fraction: 4, phase: 45, amplitude: 0.5, dbtp: -6 },
  { name: 'case 17', fraction: 6, phase: 60, amplitude: 0.5, dbtp: -6 },
  { name: 'case 18', fraction: 8, phase: 67.5, amplitude: 0.5, dbtp: -6 },
  { name: 'case 19', fraction: 4, phase: 45, amplitude: 1.41, dbtp: 3 },
];

/** EBU Tech 3342, cases 1 to 4 (levels from memory, readings via a public transcription); ±1 LU. */
const RANGES = [
  { name: 'case 1', levels: [-20, -30], lu: 10 },
  { name: 'case 2', levels: [-20, -15], lu: 5 },
  { name: 'case 3', levels: [-40, -20], lu: 20 },
  { name: 'case 4', levels: [-50, -35, -20, -35, -50], lu: 15 },
];

describe('EBU Tech 3341, integrated loudness', () => {
  for (const rate of [44_100, 48_000]) {
    it.each(INTEGRATED)(`$name reads $lufs LUFS at ${rate} Hz`, ({ steps, lufs }) => {
      const x = steppedSine(rate, 1000, steps.map(([seconds, dbfs]) => ({ seconds, dbfs }))); // prettier-ignore
      expect(Math.abs(measure(rate, stereo(x)).integratedLufs! - lufs)).toBeLessThanOrEqual(0.1);
    });
  }
});

describe('EBU Tech 3341, true peak', () => {
  it.each(PEAKS)('$name reads $dbtp dBTP', ({ fraction, phase, amplitude, dbtp }) => {
    const rate = 48_000;
    const x = Float32Array.from(
      { length: rate },
      (_, i) => amplitude * Math.sin((2 * Math.PI * i) / fraction + (phase * Math.PI) / 180) * ramp(i, rate),
    );
    const { truePeakDbtp } = measure(rate, stereo(x));
    expect(truePeakDbtp!).toBeLessThanOrEqual(dbtp + 0.2);
    expect(truePeakDbtp!).toBeGreaterThanOrEqual(dbtp - 0.4);
  });
});

describe('EBU Tech 3342, loudness range', () => {
  it.each(RANGES)('$name reads $lu LU', ({ levels, lu }) => {
    const x = steppedSine(48_000, 1000, levels.map((dbfs) => ({ seconds: 20, dbfs }))); // prettier-ignore
    expect(Math.abs(measure(48_000, stereo(x)).rangeLu! - lu)).toBeLessThanOrEqual(1);
  });
});

/** A 10 ms fade at both ends, so that switching the tone on adds no overshoot of its own. */
function ramp(i: number, length: number): number {
  return Math.min(1, i / 480, (length - 1 - i) / 480);
}
