import { describe, expect, it } from 'vitest';
import { decode } from '../../src/form/decode.js';
import { FREE, type BarConstraints } from '../../src/form/lattice.js';
import { withOddSections } from '../../src/form/odd-sections.js';
import { LENGTH_COSTS } from '../../src/form/weights/index.js';

const BARS = 53;
/** Sections of 16, 21 and 16 bars, plain to hear; nothing tells of phrases inside them. */
const SECTIONS = [16, 37];

const scores = (inside: number) => {
  const at = (value: number) =>
    Float64Array.from({ length: BARS }, (_, b) => (SECTIONS.includes(b) ? value : b === 24 || b === 32 ? inside : -3));
  return { phrase: at(6), section: at(4).map((v) => (v > 0 ? v : -3)) };
};

/** One chord a bar, in loops that start again every `length` bars of the section in the middle, else every eight. */
function chords(length: number) {
  const values = new Float32Array(BARS * 12);
  for (let b = 0; b < BARS; b++) {
    const inside = b >= 16 && b < 37;
    const place = inside ? (b - 16) % length : (b < 16 ? b : b - 37) % 8;
    values[b * 12 + place] = 1;
  }
  return { values, columns: 12 };
}

function starts(length: number, inside = -1, word: BarConstraints = FREE) {
  const said = scores(inside);
  const reading = decode(BARS, said, LENGTH_COSTS, 8, word);
  return withOddSections(reading, BARS, said, LENGTH_COSTS, word, chords(length));
}

describe('a section that counts in phrases of an odd length', () => {
  it('is read so where its chords come back after that length', () => {
    const reading = starts(7);
    expect(reading.phraseStarts.filter((b) => b >= 16 && b <= 37)).toEqual([16, 23, 30, 37]);
    expect(reading.posteriorOf(16, 7)).toBeGreaterThan(0.7);
    expect(reading.posteriorOf(16, 8)).toBeLessThan(0.3);
  });

  it('is left as it was where they come back after eight bars', () => {
    expect(starts(8).phraseStarts).toContain(24);
    expect(starts(8).phraseStarts).not.toContain(23);
  });

  it('is left as it was where eights are plain to hear', () => {
    expect(starts(7, 9).phraseStarts).toContain(24);
  });

  it("keeps a person's word", () => {
    expect(starts(7, -1, { ...FREE, phraseStart: new Set([24]) }).phraseStarts).toContain(24);
    expect(starts(7, -1, { ...FREE, noPhraseStart: new Set([23]) }).phraseStarts).not.toContain(23);
  });
});
