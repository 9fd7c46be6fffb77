import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { createRooms } from '../../src/audio/decoder/rooms.js';
import { openAudio } from '../../src/audio/index.js';
import { encodeFlac } from './support/encode.js';
import { DECODERS, temporaryFolder } from './support/reading.js';

const RATE = 8000;
const folder = temporaryFolder();

describe('room for decoded samples', () => {
  it('is used again once it is given back, and only then', () => {
    const rooms = createRooms();
    const first = rooms.take(1000);
    const second = rooms.take(1000);
    expect(second).not.toBe(first);
    rooms.giveBack(first);
    expect(rooms.take(2000)).toBe(first);
    expect(rooms.take(2000)).not.toBe(first);
  });

  it('is taken back once, and only where it was taken', () => {
    const rooms = createRooms();
    const room = rooms.take(10);
    rooms.giveBack(room);
    rooms.giveBack(room);
    rooms.giveBack(new ArrayBuffer(1 << 20));
    expect(rooms.take(10)).toBe(room);
    expect([room, null]).not.toContain(rooms.take(10));
  });

  it('that is too small is replaced', () => {
    const rooms = createRooms();
    const small = rooms.take(10);
    rooms.giveBack(small);
    const large = rooms.take((1 << 20) + 1);
    expect(large.byteLength).toBeGreaterThan(1 << 20);
    rooms.giveBack(large);
    expect(rooms.take(10)).toBe(large);
  });
});

it('a block keeps its samples until the next one is asked for, however long that takes', async () => {
  // Five pieces: more than are on their way at a time. Every sample tells its place.
  const length = 5 << 19;
  const ramp = Float32Array.from({ length }, (_, i) => ((i * 7919) % 32_768) / 65_536);
  const file = folder.file('long.flac', await encodeFlac([ramp], RATE));
  const { source } = await openAudio(file, { decoder: DECODERS[0] });
  let at = 0;
  let wrong = 0;
  for await (const [samples] of source.blocks()) {
    await pause(30);
    for (let i = 0; i < samples.length; i++) if (Math.abs(samples[i] - ramp[at + i]) > 1e-4) wrong++;
    at += samples.length;
  }
  expect(at).toBe(length);
  expect(wrong).toBe(0);
});
