import { describe, expect, it } from 'vitest';
import { collectYoung } from '../../src/audio/decoder/young.js';

/** The most bytes outside the heap that stand at a time while 50 MB are made and dropped. */
function mostBytes(each: () => void): number {
  const before = process.memoryUsage().arrayBuffers;
  let most = 0;
  for (let i = 0; i < 200; i++) {
    new Uint8Array(1 << 18).fill(1);
    if (i % 10 === 0) each();
    most = Math.max(most, process.memoryUsage().arrayBuffers - before);
  }
  return most;
}

describe('collecting garbage among young objects', () => {
  it('keeps memory outside the heap from growing, which else it does', () => {
    collectYoung();
    expect(mostBytes(() => undefined)).toBeGreaterThan(16 << 20);
    collectYoung();
    expect(mostBytes(collectYoung)).toBeLessThan(12 << 20);
  });

  it('shows nobody else how', () => {
    const shown = 'gc' in globalThis;
    collectYoung();
    expect('gc' in globalThis).toBe(shown);
  });
});
