import { describe, expect, it } from 'vitest';
import { createKeyFinder, type Key } from '../../src/tonality/index.js';
import { MODES, PITCH_CLASSES } from '../../src/units/index.js';
import { addTone, cadence, drums, RATE, seeded } from './music.js';

/** Krumhansl & Kessler 1982, probe-tone profiles (read in Essentia): how well each step above the tonic fits the key. */
const PROBE_TONES = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};

function keyOf(x: Float32Array): Promise<Key> {
  const finder = createKeyFinder();
  for (let from = 0; from < x.length; from += 50_000) finder.push(x.subarray(from, from + 50_000));
  return finder.finish();
}

describe('the key finder', () => {
  // I IV V I and i iv V i state a key: common practice, no source.
  for (const mode of MODES) {
    it(`names all twelve ${mode} keys from their cadence`, async () => {
      for (const [tonic, name] of PITCH_CLASSES.entries()) {
        const key = await keyOf(cadence(tonic, mode, 1));
        expect({ tonic: key.tonic, mode: key.mode }).toEqual({ tonic: name, mode });
        expect(key.alternatives[0]).toMatchObject({ tonic: name, mode });
      }
    });
  }

  it('agrees with the probe-tone profiles: notes played as long as they fit a key state that key', async () => {
    for (const mode of MODES) {
      for (const tonic of [0, 3, 10]) {
        const x = new Float32Array(RATE * 12);
        const profile = PROBE_TONES[mode];
        const lowest = Math.min(...profile);
        // A note's share of the time is its fit above that of the worst note.
        const lengths = profile.map((v) => v - lowest);
        const scale = 12 / lengths.reduce((a, b) => a + b, 0);
        let at = 0;
        for (let step = 0; step < 12; step++) {
          for (let end = at + lengths[step] * scale; at < end; at += 0.25)
            addTone(x, at, Math.min(0.25, end - at), 48 + ((tonic + step) % 12), 0.3);
        }
        const key = await keyOf(x);
        expect([key.tonic, key.mode]).toEqual([PITCH_CLASSES[tonic], mode]);
      }
    }
  });

  it('hears the key under drums', async () => {
    const x = cadence(9, 'minor', 6);
    const d = drums(12);
    for (let i = 0; i < x.length; i++) x[i] += 0.5 * (d[i] ?? 0);
    const key = await keyOf(x);
    expect([key.tonic, key.mode]).toEqual(['A', 'minor']);
  });

  it('names no key for drums alone, noise, clicks and silence', async () => {
    const random = seeded(5);
    const noise = new Float32Array(RATE * 15).map(() => 0.3 * random());
    const clicks = new Float32Array(RATE * 15).map((_, i) => (i % 22_050 === 0 ? 1 : 0));
    for (const x of [drums(16), noise, clicks, new Float32Array(RATE * 10), new Float32Array(0)]) {
      expect(await keyOf(x)).toMatchObject({ tonic: null, mode: null, confidence: null });
    }
  });

  it('does not care for level, and takes samples that are no numbers for zero', async () => {
    const x = cadence(2, 'major');
    const loud = await keyOf(x);
    const soft = await keyOf(x.map((v) => v * 0.05));
    expect(soft.tonic).toBe(loud.tonic);
    expect(soft.confidence).toBeCloseTo(loud.confidence!, 3);
    x[5_000] = NaN;
    expect((await keyOf(x)).tonic).toBe('D');
  });

  it('keeps only evenly spread excerpts of a long track', async () => {
    const finder = createKeyFinder();
    const block = cadence(4, 'minor', 1);
    const before = process.memoryUsage().arrayBuffers;
    for (let k = 0; k < 450; k++) finder.push(block); // half an hour
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(120e6);
    const key = await finder.finish();
    expect([key.tonic, key.mode]).toEqual(['E', 'minor']);
  });

  it('gives weights that sum to one and a confidence between 0 and 1', async () => {
    const x = new Float32Array(RATE * 16);
    x.set(cadence(0, 'major', 2));
    x.set(cadence(9, 'minor', 2), RATE * 8);
    const { alternatives, confidence } = await keyOf(x);
    expect(alternatives.length).toBeGreaterThan(1);
    expect(alternatives.reduce((s, a) => s + a.weight, 0)).toBeCloseTo(1, 9);
    expect(confidence).toBeGreaterThan(0);
    expect(confidence).toBeLessThan(1);
  });
});
