import type { Worker } from 'node:worker_threads';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { askEssentia } from '../../src/tonality/kept-essentia.js';
import { bestKeys } from '../../src/tonality/key-profiles.js';

// A minor by the profile of Krumhansl and Kessler (1982), C first; from memory.
const MINOR = [5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17, 6.33, 2.68, 3.52];
const profiles = [Float64Array.from(MINOR)];

describe('the thread of essentia.js', () => {
  let started: Worker[];
  const count = (worker: Worker) => started.push(worker);
  beforeEach(() => {
    started = [];
    process.on('worker', count);
  });
  afterEach(() => process.off('worker', count));

  it('serves one track after the other, and several at once', async () => {
    const first = await bestKeys(profiles);
    const [second, third] = await Promise.all([bestKeys(profiles), bestKeys(profiles)]);
    expect(first).toMatchObject([{ tonic: 'A', mode: 'minor' }]);
    expect([second, third]).toEqual([first, first]);
    expect(started).toHaveLength(1);
  });

  it('is started anew after it failed, which costs the one question only', async () => {
    const [first] = await bestKeys(profiles);
    await expect(
      askEssentia((thread) => thread.close().then(() => thread.keys(new Float32Array(12), 'edma'))),
    ).rejects.toThrow(/was closed/);
    expect(await bestKeys(profiles)).toEqual([first]);
    expect(started).toHaveLength(1);
  });

  it('is let go of when nobody asks for a while', async () => {
    await bestKeys(profiles);
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    try {
      await bestKeys(profiles);
      const before = started.length;
      await vi.advanceTimersByTimeAsync(60_000);
      const asked = bestKeys(profiles);
      vi.useRealTimers();
      await asked;
      expect(started).toHaveLength(before + 1);
    } finally {
      vi.useRealTimers();
    }
  });
});
