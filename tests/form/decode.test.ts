import { describe, expect, it } from 'vitest';
import { decode } from '../../src/form/decode.js';
import { FREE } from '../../src/form/lattice.js';
import { longestPhrase } from '../../src/form/lengths.js';
import { LENGTH_COSTS } from '../../src/form/weights/index.js';

/** Scores that are low everywhere but at the given bars. */
function scoresAt(bars: number, phrases: readonly number[], sections: readonly number[] = []) {
  const phrase = new Float64Array(bars).fill(-4);
  const section = new Float64Array(bars).fill(-4);
  for (const b of phrases) phrase[b] = 4;
  for (const b of sections) section[b] = 4;
  return { phrase, section };
}

/** Pseudo-random scores in −4…4, for properties that must hold whatever the scores are. */
function anyScores(bars: number, seed: number) {
  let s = seed;
  const next = () => ((s = (s * 1103515245 + 12345) % 2147483648) / 2147483648) * 8 - 4;
  return { phrase: Float64Array.from({ length: bars }, next), section: Float64Array.from({ length: bars }, next) };
}

describe('decoding phrases and sections together', () => {
  it('finds the phrases that the scores point at, and the extension among them', () => {
    const reading = decode(58, scoresAt(58, [8, 16, 24, 34, 42, 50], [16, 34]), LENGTH_COSTS, 8);
    expect(reading.phraseStarts).toEqual([0, 8, 16, 24, 34, 42, 50]);
    expect(reading.sectionStarts).toEqual([0, 16, 34]);
    expect(reading.posteriorOf(24, 10)).toBeGreaterThan(0.9);
  });

  it.each([1, 2, 3, 5, 17, 64, 131])(
    'tiles %i bars: sections start where phrases start, no phrase is too long',
    (bars) => {
      for (const usual of [4, 8, 16])
        for (const seed of [1, 2, 3]) {
          const { phraseStarts, sectionStarts, evidence } = decode(bars, anyScores(bars, seed), LENGTH_COSTS, usual);
          expect(Number.isFinite(evidence)).toBe(true);
          expect(phraseStarts[0]).toBe(0);
          [...phraseStarts.slice(1), bars].forEach((end, i) => {
            expect(end - phraseStarts[i]).toBeGreaterThan(0);
            expect(end - phraseStarts[i]).toBeLessThanOrEqual(longestPhrase(usual));
          });
          expect(sectionStarts.every((s) => phraseStarts.includes(s))).toBe(true);
        }
    },
  );

  it('gives posteriors that are probabilities, 1 at the first bar, and that sum over lengths to the start', () => {
    const reading = decode(60, anyScores(60, 7), LENGTH_COSTS, 8);
    expect(reading.phrasePosterior[0]).toBeCloseTo(1, 6);
    for (let b = 0; b < 60; b++) {
      let sum = 0;
      for (let l = 1; l <= longestPhrase(8) && b + l <= 60; l++) sum += reading.posteriorOf(b, l);
      expect(sum).toBeCloseTo(reading.phrasePosterior[b], 6);
      expect(reading.sectionPosterior[b]).toBeLessThanOrEqual(reading.phrasePosterior[b] + 1e-9);
    }
  });

  it("obeys a person's word and re-anchors what follows", () => {
    const scores = scoresAt(48, [8, 16, 24, 32, 40]);
    const word = { ...FREE, phraseStart: new Set([18]), noPhraseStart: new Set([24]) };
    const { phraseStarts } = decode(48, scores, LENGTH_COSTS, 8, word);
    expect(phraseStarts).toContain(18);
    expect(phraseStarts).not.toContain(24);
    expect(decode(48, scores, LENGTH_COSTS, 8, { ...FREE, sectionStart: new Set([20]) }).sectionStarts).toContain(20);
  });

  it('still tiles the track when a person forbids every start', () => {
    const word = { ...FREE, noPhraseStart: new Set(Array.from({ length: 39 }, (_, i) => i + 1)) };
    expect(decode(40, anyScores(40, 5), LENGTH_COSTS, 8, word).phraseStarts).toEqual([0]);
  });
});
