import { describe, expect, it } from 'vitest';
import { judge, scoreWords } from '../../src/player/drill/index.js';

const data = { choices: ['the high one', 'the low one'], beat: 0.5, beatsPerBar: 4 };
const base = { question: '?', answer: '!', sound: '' };
const choice = { ...base, reply: { kind: 'choice', right: 1 } } as const;
const tap = { ...base, reply: { kind: 'tap', at: 10 } } as const;

describe('an answer to a drill', () => {
  it('is right or wrong by its choice', () => {
    expect(judge(data, choice, { choice: 1 })).toMatchObject({ isRight: true, given: 'the low one' });
    expect(judge(data, choice, { choice: 0 })).toMatchObject({ isRight: false, given: 'the high one' });
    expect(judge(data, choice, null)).toMatchObject({ isRight: false, given: 'no answer' });
  });

  it.each([
    [10, true, 'on it'],
    [10.019, true, '19 ms late'],
    [9.9, true, '100 ms early'],
    [10.13, false, '130 ms late'],
    [9.5, false, '1 beat early'],
    [11, false, '2 beats late'],
    [8, false, '1 bar early'],
    [14.02, false, '2 bars late'],
    [10.25, false, '250 ms late'],
    [12.8, false, '2.8 s late'],
  ])('by a tap at %f s for a one at 10 s: %s, %s', (at, isRight, told) => {
    expect(judge(data, tap, { tap: at })).toEqual({ isRight, told, given: told });
  });

  it('is never right by waiting for the sound: simple reaction to it takes 140 ms or more (from memory)', () => {
    for (const beat of [0.3, 0.5, 1]) expect(judge({ ...data, beat }, tap, { tap: 10.14 }).isRight).toBe(false);
  });

  it('counts towards the score', () => {
    const verdicts = [0, 1, 1].map((c) => judge(data, choice, { choice: c }));
    expect(scoreWords(verdicts, 3)).toBe('2 of 3 right');
  });
});
