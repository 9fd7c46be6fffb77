import { expect, test } from 'vitest';
import { layBeats } from '../../src/rhythm/lay-beats.js';
import { randomNumbers } from '../../src/units/index.js';
import { hear } from './drums.js';

const RATE = 44_100;
const PERIOD = 60 / 132;

/** Bursts of noise at the given times. */
function bursts(times: readonly number[]): Float32Array {
  const random = randomNumbers(3);
  const out = new Float32Array(Math.ceil((times[times.length - 1] + 1) * RATE));
  for (const time of times) {
    const from = Math.round(time * RATE);
    for (let i = 0; i < 0.05 * RATE; i++) out[from + i] += 0.5 * Math.exp(-i / 600) * (random() * 2 - 1);
  }
  return out;
}

test('two instruments that strike 23 ms apart in turn are no drift', () => {
  const expected = Array.from({ length: 288 }, (_, b) => 0.5 + b * PERIOD);
  const played = expected.map((t, b) => (Math.floor(b / 48) % 2 === 1 ? t - 0.023 : t));
  const laid = layBeats(hear(bursts(played)), expected, true);
  expect(laid.steadiness).toBe('constant');
  expect(laid.pieces[0].bpm).toBeCloseTo(132, 2);
});

test('a tempo that does change is followed, however little', () => {
  const expected = Array.from({ length: 288 }, (_, b) => 0.5 + b * PERIOD);
  const played = expected.map((t, b) => t + (b > 144 ? (b - 144) * PERIOD * 0.0004 : 0));
  const laid = layBeats(hear(bursts(played)), expected, true);
  const errors = played.map((t, b) => Math.abs(laid.timeOf(b) - t));
  expect(Math.max(...errors)).toBeLessThan(0.01);
});

test.each([
  ['on a beat between two fours', 142],
  ['in the middle of sixteen bars in which nothing strikes', 160],
])('a tempo that changes %s changes on that very beat', (_, change) => {
  const played = Array.from({ length: 288 }, (_, b) => 0.5 + b * PERIOD - Math.max(b - change, 0) * PERIOD * 0.04);
  const silent = (b: number) => change === 160 && b >= 132 && b < 196;
  const expected = played.map((t) => t + 0.002);
  const laid = layBeats(hear(bursts(played.filter((_, b) => !silent(b)))), expected, false);
  expect(laid.pieces.map((p) => p.from)).toEqual([0, change]);
  const errors = played.map((t, b) => Math.abs(laid.timeOf(b) - t));
  expect(Math.max(...errors)).toBeLessThan(0.005);
});
