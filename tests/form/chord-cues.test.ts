import { describe, expect, it } from 'vitest';
import { CHORD_CUES, chordEar } from '../../src/form/chord-cues.js';
import type { FrontEnd } from '../../src/signal/index.js';

/** Two seconds of chroma at ten frames a second; `frame` gives the powers of the pitch classes that sound. */
function heard(
  frame: (i: number) => Readonly<Record<number, number>>,
  gain = 1,
): Pick<FrontEnd, 'chroma' | 'meanPower'> {
  const rows = 20;
  const values = new Float32Array(rows * 12);
  for (let i = 0; i < rows; i++)
    for (const [c, power] of Object.entries(frame(i))) values[i * 12 + Number(c)] = power * gain;
  return { chroma: { values, rows, columns: 12, rate: 10, start: 0 }, meanPower: gain };
}

const cues = (front: Pick<FrontEnd, 'chroma' | 'meanPower'>, start = 0, end = 2) => {
  const values = chordEar(front as FrontEnd)(start, end);
  return Object.fromEntries(CHORD_CUES.map((name, i) => [name, values[i]]));
};

const CHORD = heard(() => ({ 0: 1, 4: 0.8, 7: 0.9 }));
const TUNE = heard((i) => ({ [(i >> 1) % 12]: 1 }));

describe('cues of chords', () => {
  it('hear three pitch classes held in a chord and none in a tune', () => {
    expect(cues(CHORD)['held pitch classes']).toBe(3);
    expect(cues(TUNE)['held pitch classes']).toBe(0);
    expect(cues(CHORD)['third held pitch class in the bar']).toBeGreaterThan(-6);
    expect(cues(TUNE)['third held pitch class in the bar']).toBeLessThan(-30);
  });

  it('hear that classes sound together, and that a chord stays', () => {
    expect(cues(CHORD)['third pitch class in each frame']).toBeCloseTo(10 * Math.log10(0.8), 1);
    expect(cues(TUNE)['second pitch class in each frame']).toBeLessThan(-30);
    expect(cues(CHORD)['likeness of each frame to the one before']).toBeCloseTo(1, 6);
    expect(cues(TUNE)['likeness of each frame to the one before']).toBeLessThan(0.6);
  });

  it('do not depend on gain or pitch', () => {
    const loud = heard(() => ({ 0: 1, 4: 0.8, 7: 0.9 }), 1e4);
    const higher = heard(() => ({ 3: 1, 7: 0.8, 10: 0.9 }));
    for (const name of CHORD_CUES)
      for (const other of [loud, higher]) expect(cues(other)[name]).toBeCloseTo(cues(CHORD)[name], 4);
  });

  it.each([
    ['silence', heard(() => ({})), 0, 2],
    ['a bar behind the end', CHORD, 5, 7],
    ['a bar without length', CHORD, 1, 1],
  ])('are numbers for %s', (_, front, start, end) => {
    for (const value of Object.values(cues(front, start, end))) expect(Number.isFinite(value)).toBe(true);
  });
});
