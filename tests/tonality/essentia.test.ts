import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderArrangement } from '../../src/arranger/index.js';
import { startEssentia, type EssentiaThread } from '../../src/tonality/essentia.js';
import { FRAME, hearPitches } from '../../src/tonality/hear-pitches.js';
import { bestKeys } from '../../src/tonality/key-profiles.js';
import { small } from '../arranger/small.js';
import { cadence, drums, RATE, seeded } from './music.js';

/** As essentia.js spells them. */
const FLATS: Readonly<Record<string, string>> = { Db: 'C#', Eb: 'D#', Gb: 'F#', Ab: 'G#', Bb: 'A#' };

/** Music of several kinds, 12 s each: chords, chords under drums, an arrangement, a tone that glides through noise. */
function pieces(): Record<string, Float32Array> {
  const length = RATE * 12;
  const chords = cadence(3, 'minor').subarray(0, length);
  const beat = drums(8);
  const random = seeded(9);
  const { left, right } = renderArrangement(
    small([{ function: 'main', phrases: [{ bars: 8, layers: ['kick', 'percussion', 'bass', 'harmony'] }] }]),
  );
  return {
    chords,
    'chords under drums': chords.map((x, i) => 0.6 * x + 0.4 * (beat[i] ?? 0)),
    'an arrangement': left.map((l, i) => 0.4 * (l + right[i])).subarray(0, length),
    'a glide in noise': Float32Array.from(
      { length: RATE * 3 + 1234 },
      (_, i) => 0.2 * Math.sin(i * (0.04 + i * 1e-7)) + 0.05 * random(),
    ),
  };
}

// essentia.js 0.1.3: KeyExtractor(profile edma, 60 peaks to 3500 Hz, gate 0.2).
describe('what the key finder hears, beside the KeyExtractor of essentia.js', () => {
  let thread: EssentiaThread;
  beforeAll(() => {
    thread = startEssentia();
  });
  afterAll(() => thread.close());

  it.each(Object.entries(pieces()))('is the same key at the same strength: %s', async (_, music) => {
    const frames = Math.floor(music.length / FRAME);
    const cuts = [0, frames >> 1, frames];
    const { full, withoutBass, parts } = hearPitches(music, cuts);
    const ours = bestKeys([full, withoutBass, ...parts]);
    const theirs = [
      await thread.keyOfMusic(music.slice(), 'edma', 25),
      await thread.keyOfMusic(music.slice(), 'edma', 120),
      await thread.keyOfMusic(music.slice(0, cuts[1] * FRAME), 'edma', 120),
      await thread.keyOfMusic(music.slice(cuts[1] * FRAME, frames * FRAME), 'edma', 120),
    ];
    ours.forEach((heard, i) => {
      const { key, scale, strength } = theirs[i];
      expect([heard.tonic, heard.mode]).toEqual([FLATS[key] ?? key, scale]);
      expect(Math.abs(heard.strength - strength)).toBeLessThan(1e-4);
    });
  });
});
