import { beforeAll, describe, expect, it } from 'vitest';
import { growing } from '../../src/signal/growing.js';
import { ANALYSIS_RATE, createFrontEnd, loadFft } from '../../src/signal/index.js';

const filled = (expectedRows: number | undefined, rows: number) => {
  const list = growing(2, expectedRows);
  for (let r = 0; r < rows; r++) {
    const at = list.next();
    list.data[at] = r;
    list.data[at + 1] = -r;
  }
  const room = list.data;
  return { values: list.finish(), room };
};

describe('rows that are appended', () => {
  it.each([undefined, 16, 999, 1000, 1005, 5000])('are the same whatever was expected: %s rows', (expected) => {
    const { values } = filled(expected, 1000);
    expect(values).toHaveLength(2000);
    expect(values[1998]).toBe(999);
    expect(values[1999]).toBe(-999);
  });

  it('may come several at a time', () => {
    const list = growing(2, 16);
    for (let r = 0; r < 1000; r += 100) list.append(Float32Array.from({ length: 200 }, (_, i) => 2 * r + i));
    expect(list.rows).toBe(1000);
    expect(list.next()).toBe(2000);
    expect([...list.finish().subarray(0, 2000)]).toEqual(Array.from({ length: 2000 }, (_, i) => i));
  });

  it('are not copied where about as many came as were expected', () => {
    const right = filled(1005, 1000);
    expect(right.values.buffer).toBe(right.room.buffer);
    const wrong = filled(5000, 1000);
    expect(wrong.values.buffer.byteLength).toBe(8000);
  });
});

describe('a front end', () => {
  beforeAll(loadFft);
  it('is the same to the last bit, whatever length was expected', () => {
    const noise = Float32Array.from({ length: 3 * ANALYSIS_RATE }, (_, i) => Math.sin(i * i * 0.37));
    const made = [undefined, 3, 0.1, 40].map((seconds) => {
      const builder = createFrontEnd(seconds);
      builder.push(noise, noise);
      return builder.finish();
    });
    for (const other of made.slice(1)) expect(other).toEqual(made[0]);
  });
});
