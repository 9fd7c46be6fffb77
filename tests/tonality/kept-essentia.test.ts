import { describe, expect, it, vi } from 'vitest';
import { askEssentia } from '../../src/tonality/kept-essentia.js';
import { bestKeys } from '../../src/tonality/key-profiles.js';

// A minor by the profile of Krumhansl and Kessler (1982), C first; from memory.
const MINOR = [5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17, 6.33, 2.68, 3.52];
const profiles = [Float64Array.from(MINOR)];

const library = () => askEssentia((kept) => kept);

describe('essentia.js for keys', () => {
  it('serves one track after the other', () => {
    const first = bestKeys(profiles);
    const before = library();
    expect(first).toMatchObject([{ tonic: 'A', mode: 'minor' }]);
    expect(bestKeys(profiles)).toEqual(first);
    expect(library()).toBe(before);
  });

  it('says nothing of a profile of nothing', () => {
    expect(bestKeys([new Float64Array(12)])[0].strength).toBeNaN();
  });

  it('takes nothing of the process for its own', () => {
    const listeners = () => process.eventNames().map((name) => [name, process.listenerCount(name)]);
    const [names, before] = [Object.getOwnPropertyNames(globalThis), listeners()];
    expect(() =>
      askEssentia(() => {
        throw new Error('let go of');
      }),
    ).toThrow('let go of');
    bestKeys(profiles);
    expect(listeners()).toEqual(before);
    expect(Object.getOwnPropertyNames(globalThis)).toEqual(names);
  });

  it('is started anew after it failed, which costs the one question only', () => {
    const [first] = bestKeys(profiles);
    const before = library();
    expect(() =>
      askEssentia(() => {
        // As the compiled code throws.
        // eslint-disable-next-line @typescript-eslint/only-throw-error
        throw 5247424;
      }),
    ).toThrow('essentia.js gave up (5247424)');
    expect(bestKeys(profiles)).toEqual([first]);
    expect(library()).not.toBe(before);
  });

  it('is let go of when nobody asks for a while', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    try {
      const before = library();
      await vi.advanceTimersByTimeAsync(10_000);
      expect(library()).toBe(before);
      await vi.advanceTimersByTimeAsync(60_000);
      expect(library()).not.toBe(before);
    } finally {
      vi.useRealTimers();
    }
  });
});
