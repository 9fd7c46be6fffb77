import { describe, expect, it } from 'vitest';
import { longestPhrase, phraseCost, sectionCost } from '../../src/form/lengths.js';
import { countsInEights, departure, isRegular, regularPhrases } from '../../src/form/irregularities.js';
import { LENGTH_COSTS } from '../../src/form/weights/index.js';

describe('costs of lengths', () => {
  // Computed from Nieto et al., "The Harmonix Set", ISMIR 2019, published annotations: of the sections of 129 dance
  // tracks 72.6 % are a multiple of 8 bars long, 15.8 % another multiple of 4, 4.8 % another even number, 6.8 % odd.
  const share = (bars: number) => (bars % 8 === 0 ? 72.6 : bars % 4 === 0 ? 15.8 : bars % 2 === 0 ? 4.8 / 2 : 6.8 / 4);

  it('rank the lengths of sections as dance tracks do', () => {
    for (let a = 5; a <= 64; a++)
      for (let b = 5; b <= 64; b++) {
        if (share(a) <= share(b) || b === 4 || (a < 8 && b >= 8)) continue;
        const whole = (bars: number) => {
          const phrases = Math.max(1, Math.round(bars / 8));
          const rest = bars - 8 * (phrases - 1);
          return sectionCost(LENGTH_COSTS, bars, false) + phraseCost(LENGTH_COSTS, 8, rest, false);
        };
        expect(whole(a), `${a} bars against ${b}`).toBeLessThanOrEqual(whole(b));
      }
  });

  it('make a regular shorter phrase cheaper than any that breaks the groups', () => {
    for (const usual of [4, 8, 16])
      for (let bars = 1; bars <= longestPhrase(usual); bars++)
        if (bars % 4 !== 0)
          for (let regular = 4; regular <= usual; regular += 4)
            expect(phraseCost(LENGTH_COSTS, usual, bars, false)).toBeGreaterThan(
              phraseCost(LENGTH_COSTS, usual, regular, false),
            );
  });

  it('make two phrases, one of them short, likelier than one that is far too long', () => {
    const cost = (bars: number) => phraseCost(LENGTH_COSTS, 16, bars, false);
    for (const bars of [21, 22, 23]) expect(cost(bars)).toBeGreaterThan(cost(bars - 8) + 1);
    expect(cost(18)).toBe(cost(14));
  });

  it('ask less of a first or last phrase that is cut off, not of one that is too long', () => {
    expect(phraseCost(LENGTH_COSTS, 8, 5, true)).toBeLessThan(phraseCost(LENGTH_COSTS, 8, 5, false));
    expect(phraseCost(LENGTH_COSTS, 8, 9, true)).toBe(phraseCost(LENGTH_COSTS, 8, 9, false));
  });
});

describe('what an irregular length departs from', () => {
  it.each([
    [10, 8, 'added-bars', 8],
    [18, 16, 'added-bars', 16],
    [9, 16, 'added-bars', 8],
    [6, 8, 'dropped-bars', 8],
    [13, 16, 'dropped-bars', 16],
    [7, 16, 'dropped-bars', 8],
    [3, 16, 'odd-phrase', 16],
    [2, 8, 'odd-phrase', 8],
    [12, 8, 'added-bars', 8],
    [12, 16, 'dropped-bars', 16],
    [20, 16, 'added-bars', 16],
    [22, 16, 'dropped-bars', 24],
    [23, 16, 'dropped-bars', 24],
  ] as const)('%i bars where %i are usual: %s, against %i', (bars, usual, kind, against) => {
    expect(departure(bars, usual)).toEqual({ kind, usual: against });
  });
});

describe('counting in eights', () => {
  it('holds with one phrase of twelve inside, not with two, and not on the word of three phrases', () => {
    expect(countsInEights([8, 8, 16, 12, 8, 8, 8])).toBe(true);
    expect(countsInEights([8, 8, 12, 8, 8, 12, 8, 8])).toBe(false);
    expect(countsInEights([3, 8, 8, 12, 8, 4])).toBe(false);
  });

  it('makes four bars more irregular, but not at the ends, and not where the track counts in fours', () => {
    expect(isRegular(12, false, true)).toBe(false);
    expect(isRegular(12, true, true)).toBe(true);
    expect(isRegular(12, false, false)).toBe(true);
  });

  it.each([
    ['two fours are an eight in two halves', [4, 4, 8, 8, 8, 8, 8], [true, true, true, true, true, true, true]],
    ['also inside the track', [8, 8, 4, 4, 8, 8, 8], [true, true, true, true, true, true, true]],
    ['one four is half an eight', [8, 8, 4, 8, 8, 8, 8], [true, true, false, true, true, true, true]],
    [
      'of three fours the last is too many',
      [8, 8, 8, 4, 4, 4, 8, 8, 8],
      [true, true, true, true, true, false, true, true, true],
    ],
  ])('%s', (_, lengths, regular) => {
    expect(regularPhrases(lengths)).toEqual(regular);
  });
});
