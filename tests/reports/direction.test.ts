import { describe, expect, test } from 'vitest';
import { cannotBeSet, readAsWhole, runsRightToLeft, visualPieces } from '../../reports/layout/direction.js';
import { printable } from '../../reports/layout/printable.js';

/** Capitals stand for Hebrew letters, as in the examples of Unicode Standard Annex 9. */
const hebrew = (text: string) =>
  text.replace(/[A-Z]/g, (c) => String.fromCodePoint(0x5d0 + c.charCodeAt(0) - 'A'.charCodeAt(0)));
const latin = (text: string) =>
  text.replace(/[\u05d0-\u05e9]/g, (c) => String.fromCodePoint(c.codePointAt(0)! - 0x5d0 + 'A'.charCodeAt(0)));
/** A line as it is seen: a font turns the letters of each word round. */
const seen = (line: string) =>
  latin(
    visualPieces(line)
      .map(({ text, rightToLeft }) => (rightToLeft ? [...text].reverse().join('') : text))
      .join(''),
  );

describe('what is read from right to left', () => {
  test.each([
    // Unicode Standard Annex 9, 3.4, rule L2, the examples with embedding levels 0 and 1 (from memory).
    ['car means CAR.', 'car means RAC.'],
    ['CAR MEANS car.', '.car SNAEM RAC'],
    // Derived by hand from the rules W2, N0 and L4: numbers from left to right, brackets turned round.
    ['ABC DEF (GHI 12)', '(12 IHG) FED CBA'],
    ['slack water (ABC 12)', 'slack water (12 CBA)'],
    ['AB 3.5 CD', 'DC 3.5 BA'],
    ['AB remix of CD', 'DC remix of BA'],
  ])('%s is seen as %s', (read, expected) => {
    expect(seen(hebrew(read))).toBe(expected);
  });
  test('keeps its direction on every line that it is broken into', () => {
    const whole = hebrew('ABC DEF remix GHI');
    const [first, second] = readAsWhole(whole, [hebrew('ABC DEF'), hebrew('remix GHI')]);
    expect(seen(first)).toBe('FED CBA');
    expect(seen(second)).toBe('IHG remix');
    expect(seen(readAsWhole(hebrew('one two AB cd'), ['one two', hebrew('AB cd')])[1])).toBe('BA cd');
  });
  test('loses no character and shows no mark of direction', () => {
    const line = readAsWhole(hebrew('AB (12) cd!'), [hebrew('AB (12)'), 'cd!'])[0];
    const pieces = visualPieces(line)
      .map((p) => p.text)
      .join('');
    expect([...pieces].sort().join('')).toBe([...hebrew('AB (12)')].sort().join(''));
  });
  test('is left alone where there is none of it', () => {
    expect(visualPieces('Łódź 12 船')).toEqual([{ text: 'Łódź 12 船', rightToLeft: false }]);
  });
  test('is known by its letters; scripts without a font are told apart', () => {
    const samples = ['שיט', 'رحلة', 'ܫܠܡܐ', 'ߊߋ', 'Łódź', '船歌'];
    expect(samples.map(runsRightToLeft)).toEqual([true, true, true, true, false, false]);
    expect(samples.map(cannotBeSet)).toEqual([false, false, true, true, false, false]);
  });
  test('keeps the mark that parts Persian letters, and no other mark', () => {
    expect(printable('می\u200cخواهم\u200f \u202bx\u200cy\u202c')).toBe('می\u200cخواهم xy');
  });
});
