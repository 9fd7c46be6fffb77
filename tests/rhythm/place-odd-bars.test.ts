import { describe, expect, it } from 'vitest';
import { placeOddBars } from '../../src/rhythm/place-odd-bars.js';

/** Starts of bars of four, the given one (from 1) of another number of beats. */
function startsWith(odd: number, beats: number): number[] {
  const out = [0];
  for (let bar = 1; bar <= 16; bar++) out.push(out[out.length - 1] + (bar === odd ? beats : 4));
  return out;
}

const nothing = () => 0;
const free = new Set<number>();

describe('the bar that has beats too many or too few', () => {
  it.each([
    ['five beats a bar early', startsWith(7, 5), startsWith(8, 5)],
    ['five beats a bar late', startsWith(9, 5), startsWith(8, 5)],
    ['three beats a bar early', startsWith(7, 3), startsWith(8, 3)],
    ['half a bar a bar late', startsWith(9, 2), startsWith(8, 2)],
  ])('ends a group of four where nothing speaks against it: %s', (_, found, right) => {
    expect(placeOddBars(found, 4, nothing, nothing, free)).toEqual(right);
  });

  it('stays where it is when it ends a group, or is far from the end of one', () => {
    for (const bar of [8, 6])
      expect(placeOddBars(startsWith(bar, 5), 4, nothing, nothing, free)).toEqual(startsWith(bar, 5));
  });

  it('goes where the music starts again, even inside a group', () => {
    const here = startsWith(8, 5);
    const early = startsWith(7, 5);
    expect(placeOddBars(here, 4, (beat) => (beat === early[7] ? 4 : 0), nothing, free)).toEqual(early);
  });

  it('goes where the music repeats as if beats had been added there', () => {
    const early = startsWith(7, 5);
    const slip = (beat: number, missing: number) => (beat === early[7] && missing === -1 ? 20 : 0);
    expect(placeOddBars(startsWith(8, 5), 4, nothing, slip, free)).toEqual(early);
  });

  it('leaves alone a start that somebody has set', () => {
    const found = startsWith(7, 5);
    expect(placeOddBars(found, 4, nothing, nothing, new Set([found[7]]))).toEqual(found);
  });
});
