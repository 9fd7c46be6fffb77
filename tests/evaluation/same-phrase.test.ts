import { describe, expect, it } from 'vitest';
import { inPlantedWords } from '../corpus/same-phrase.js';

/** Bars of two seconds: phrases of eight, ten and eight. */
const phrases = [
  { startBar: 1, start: 0, bars: 8 },
  { startBar: 9, start: 16, bars: 10 },
  { startBar: 19, start: 36, bars: 8 },
];
const beats = [0, 52];
const odd = [{ kind: 'odd-phrase', bar: 9, time: 16, amount: 10 }] as const;
const added = [{ kind: 'added-bars', bar: 17, time: 32, amount: 2 }] as const;

describe('a length in the words in which it was planted', () => {
  it('is an odd phrase where two bars were told to be added to it', () => {
    const told = [{ kind: 'added-bars', time: 32, bars: 10, nextStart: 36 }] as const;
    expect(inPlantedWords(told, { irregularities: odd, phrases, beats }, 1)).toEqual([
      { kind: 'odd-phrase', time: 16 },
    ]);
  });

  it('is a phrase with bars added where it was told to be odd', () => {
    const told = [{ kind: 'odd-phrase', time: 16, bars: 10, nextStart: 36 }] as const;
    expect(inPlantedWords(told, { irregularities: added, phrases, beats }, 1)).toEqual([
      { kind: 'added-bars', time: 32 },
    ]);
  });

  it.each([
    ['of another length', { kind: 'added-bars', time: 32, bars: 9, nextStart: 36 }],
    ['ending elsewhere', { kind: 'added-bars', time: 32, bars: 10, nextStart: 38 }],
    ['of another phrase', { kind: 'added-bars', time: 16, bars: 8, nextStart: 16 }],
    ['that is no length', { kind: 'half-time', time: 32 }],
  ] as const)('is left as it is when it is one %s', (_, told) => {
    expect(inPlantedWords([told], { irregularities: odd, phrases, beats }, 1)).toEqual([
      { kind: told.kind, time: told.time },
    ]);
  });
});
