import { describe, expect, it } from 'vitest';
import { decode } from '../../src/form/decode.js';
import { lengthIrregularities, regularPhrases } from '../../src/form/irregularities.js';
import { LENGTH_COSTS } from '../../src/form/weights/index.js';
import { plainGrid, plainSteps } from './plain-bars.js';

const BARS = 76;
const STARTS = [8, 16, 24, 36, 44, 52, 60, 68];

/** What is told of eights with twelve bars from bar 25 on, inside which a start at `inner` (an index) has this score. */
function told(inner: number, score: number) {
  const scores = { phrase: new Float64Array(BARS).fill(-12), section: new Float64Array(BARS).fill(-6) };
  for (const b of STARTS) scores.phrase[b] = 5;
  scores.phrase[inner] = score;
  const grid = plainGrid(BARS);
  const reading = decode(BARS, scores, LENGTH_COSTS, 8);
  const section = {
    start: 0,
    end: 2 * BARS,
    startBar: 1,
    endBar: BARS,
    function: 'main',
    letter: 'A',
    confidence: 1,
  } as const;
  return { reading, found: lengthIrregularities(grid, plainSteps(BARS), reading, [section]) };
}

describe('half an eight too many', () => {
  it.each([-2, -1, 0])('is told whether 12 bars or 8 and 4 are likelier, by %s nats for the start between', (score) => {
    const { reading, found } = told(32, score);
    expect(Math.max(reading.posteriorOf(24, 12), reading.posteriorOf(32, 4))).toBeLessThan(0.8);
    expect(found).toMatchObject([{ kind: 'added-bars', bar: 33, bars: 12, usualBars: 8 }]);
    expect(found[0].confidence).toBeGreaterThan(0.9);
  });

  it('is as sure as before where there is one way to tell it', () => {
    const { reading, found } = told(32, -20);
    expect(found[0].confidence).toBeCloseTo(reading.posteriorOf(24, 12), 3);
  });
});

describe('four bars that open a section', () => {
  it('make the eight behind them longer, as no section starts between', () => {
    const scores = { phrase: new Float64Array(BARS).fill(-12), section: new Float64Array(BARS).fill(-12) };
    for (const b of [8, 16, 24, 28, 36, 44, 52, 60, 68]) scores.phrase[b] = 9;
    for (const b of [24, 36]) scores.section[b] = 20;
    const reading = decode(BARS, scores, LENGTH_COSTS, 8);
    expect(reading.sectionStarts).toEqual([0, 24, 36]);
    expect(reading.phraseStarts).toContain(28);
    const section = {
      start: 48,
      end: 72,
      startBar: 25,
      endBar: 36,
      function: 'main',
      letter: 'A',
      confidence: 1,
    } as const;
    expect(lengthIrregularities(plainGrid(BARS), plainSteps(BARS), reading, [section])).toMatchObject([
      { kind: 'added-bars', bar: 33, startBar: 25, endBar: 36, bars: 12, usualBars: 8 },
    ]);
  });
});

describe('a four and a five inside a section', () => {
  it('are told as an eight with a bar too many', () => {
    const scores = { phrase: new Float64Array(73).fill(-12), section: new Float64Array(73).fill(-12) };
    for (const b of [8, 16, 24, 28, 33, 41, 49, 57, 65]) scores.phrase[b] = 9;
    const reading = decode(73, scores, LENGTH_COSTS, 8);
    expect(reading.phraseStarts).toContain(28);
    const section = {
      start: 0,
      end: 146,
      startBar: 1,
      endBar: 73,
      function: 'main',
      letter: 'A',
      confidence: 1,
    } as const;
    expect(lengthIrregularities(plainGrid(73), plainSteps(73), reading, [section])).toMatchObject([
      { kind: 'added-bars', bar: 33, startBar: 25, endBar: 33, bars: 9, usualBars: 8 },
    ]);
  });
});

describe('a rest of two bars between two phrases', () => {
  it('is told as no phrase of an odd length', () => {
    const scores = { phrase: new Float64Array(50).fill(-9), section: new Float64Array(50).fill(-9) };
    for (const b of [8, 16, 24, 26, 34, 42]) scores.phrase[b] = 9;
    const reading = decode(50, scores, LENGTH_COSTS, 8);
    expect(reading.posteriorOf(24, 2)).toBeGreaterThan(0.9);
    const section = {
      start: 0,
      end: 100,
      startBar: 1,
      endBar: 50,
      function: 'main',
      letter: 'A',
      confidence: 1,
    } as const;
    expect(lengthIrregularities(plainGrid(50), plainSteps(50), reading, [section])).toEqual([]);
  });
});

describe('phrases of six bars', () => {
  it('are regular where most phrases have six, and only there', () => {
    expect(regularPhrases([6, 6, 6, 6, 6, 8, 6])).toEqual([true, true, true, true, true, true, true]);
    expect(regularPhrases([8, 8, 8, 6, 8, 8, 8])).toEqual([true, true, true, false, true, true, true]);
    expect(regularPhrases([8, 7, 7, 7, 8])).toEqual([true, false, false, false, true]);
  });
});
