import { writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { struckPlaces } from './training/struck.js';

const TICKS = 192;

/** A file with notes at these beats, on a channel. */
function midi(beats: readonly number[], channel = 0): Uint8Array {
  let now = 0;
  const notes = beats.map((beat) => {
    const deltaTime = Math.round(beat * TICKS) - now;
    now += deltaTime;
    return { deltaTime, type: 'noteOn' as const, channel, noteNumber: 60, velocity: 90 };
  });
  const end = { deltaTime: 0, type: 'endOfTrack' as const, meta: true as const };
  return Uint8Array.from(
    writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: TICKS }, tracks: [[...notes, end]] }),
  );
}

describe('places of a bar in which something is struck', () => {
  it('are counted in sixteenths, bar by bar, a strummed chord once', () => {
    expect(struckPlaces(midi([0, 0.01, 0.02, 4, 5, 6, 7.98, 12.5]), 4)).toEqual([1, 3, 1, 1]);
  });

  it('do not include the drums', () => {
    expect(struckPlaces(midi([0, 1, 2, 3], 9), 4)).toEqual([]);
  });
});
