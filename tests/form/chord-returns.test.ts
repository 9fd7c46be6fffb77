import { describe, expect, it } from 'vitest';
import { CHORD_REACH, chordReturns, type ChordReturns } from '../../src/form/chord-returns.js';
import { decode } from '../../src/form/decode.js';
import { bandedSimilarity } from '../../src/form/similarity.js';
import { LENGTH_COSTS } from '../../src/form/weights/index.js';

/** One chord a bar in loops of eight that begin with each phrase; the bars are phrases of these lengths. */
function returnsOf(lengths: readonly number[], usual = 8) {
  const chords = lengths.flatMap((bars) => Array.from({ length: bars }, (_, k) => k % 8));
  const values = new Float32Array(chords.length * 12);
  chords.forEach((chord, b) => (values[b * 12 + chord] = 1));
  return chordReturns(bandedSimilarity({ values, columns: 12 }, chords.length, CHORD_REACH), usual);
}

/** Nats for a phrase of so many bars that ends before a bar. */
const nats = (returns: ChordReturns, end: number, bars: number) => returns(bars)?.[end] ?? 0;

describe('what the chords say of a phrase with bars too many or too few', () => {
  it.each([
    [[8, 8, 10, 8, 8, 8], 26, 10],
    [[8, 8, 9, 8, 8, 8], 25, 9],
    [[8, 8, 8, 6, 8, 8], 30, 6],
    [[16, 16, 19, 16, 16], 51, 19],
  ])('speaks for the phrase of %j that has them, and not for its neighbours', (lengths, end, bars) => {
    const returns = returnsOf(lengths, lengths[0]);
    const own = nats(returns, end, bars);
    expect(own).toBeGreaterThan(3);
    for (const other of [end - lengths[0], end + lengths[0]]) expect(nats(returns, other, bars)).toBeLessThan(own / 2);
  });

  it('says nothing of whole groups, nor of music that stays on one chord', () => {
    const loops = returnsOf([8, 8, 12, 8, 8]);
    expect([4, 8, 12].map((bars) => nats(loops, 28, bars))).toEqual([0, 0, 0]);
    const still = chordReturns(bandedSimilarity({ values: new Float32Array(480), columns: 12 }, 40, CHORD_REACH), 8);
    expect(nats(still, 26, 10)).toBe(0);
  });

  it('puts two added bars into the phrase after which the loop begins anew, where nothing else tells', () => {
    const lengths = [8, 8, 10, 8, 8, 8];
    const bars = 50;
    // Both 16 + 10 and 24 + 10 end where something starts.
    const scores = { phrase: new Float64Array(bars).fill(-4), section: new Float64Array(bars).fill(-4) };
    for (const b of [8, 16, 34, 42]) scores.phrase[b] = 5;
    for (const b of [24, 26]) scores.phrase[b] = b === 24 ? 1 : 0;
    const plain = decode(bars, scores, LENGTH_COSTS, 8);
    expect(plain.phraseStarts).toEqual([0, 8, 16, 24, 34, 42]);
    expect(plain.posteriorOf(16, 10)).toBeLessThan(0.3);
    const told = decode(bars, scores, LENGTH_COSTS, 8, undefined, returnsOf(lengths));
    expect(told.phraseStarts).toEqual([0, 8, 16, 26, 34, 42]);
    expect(told.posteriorOf(16, 10)).toBeGreaterThan(0.5);
  });

  it('never makes a phrase off the groups free', () => {
    const bars = 40;
    const flat = { phrase: new Float64Array(bars), section: new Float64Array(bars).fill(-9) };
    const { phraseStarts } = decode(bars, flat, LENGTH_COSTS, 8, undefined, () => new Float64Array(bars + 1).fill(100));
    expect(phraseStarts).toEqual([0, 8, 16, 24, 32]);
  });
});
