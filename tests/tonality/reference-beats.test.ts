import { describe, expect, it } from 'vitest';
import { referenceBeats } from '../../src/tonality/index.js';
import { drums, RATE } from '../tonality/music.js';

describe('the reference beats of essentia.js', () => {
  it.each(['multifeature', 'degara'] as const)('follow a plain drum pattern (%s)', async (method) => {
    const beats = await referenceBeats(drums(16, 120), method);
    const periods = beats.slice(1).map((b, i) => b - beats[i]);
    const median = periods.sort((a, b) => a - b)[periods.length >> 1];
    expect(Math.abs(median - 0.5)).toBeLessThan(0.02);
    // Within 70 ms of a beat or, all of them, of an off-beat: the hats on the off-beats can win.
    const late = beats.filter((t) => t > 5).map((b) => b - Math.round(b / 0.25) * 0.25);
    for (const l of late) expect(Math.abs(l)).toBeLessThan(0.07);
  });

  it('are none for silence', async () => {
    expect(await referenceBeats(new Float32Array(RATE * 10))).toEqual([]);
    expect(await referenceBeats(new Float32Array(0))).toEqual([]);
  });

  it("leave the caller's samples alone", async () => {
    const x = drums(4);
    const length = x.length;
    await referenceBeats(x, 'degara');
    expect(x.length).toBe(length);
  });
});
