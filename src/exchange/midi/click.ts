import type { TrackAnalysis } from '../../track/index.js';
import type { Placed } from './placed.js';

/** Channel 10, where percussion is (General MIDI, level 1). */
const PERCUSSION = 9;
/** Percussion keys of General MIDI, level 1: claves on a group one, high and low wood block on bar ones and beats. */
const KEYS = { group: 75, bar: 76, beat: 77 } as const;
const VELOCITY = { group: 110, bar: 96, beat: 70 } as const;
const LENGTH = 120;

/** A stroke for every beat: the one of a group, the one of a bar and the other beats sound apart. */
export function clickEvents({ bars }: TrackAnalysis, tickOfBeat: (beat: number) => number): Placed[] {
  const placed: Placed[] = [];
  let beat = 0;
  for (const bar of bars) {
    for (let b = 0; b < bar.beats; b++, beat++) {
      const kind = b > 0 ? 'beat' : bar.groupBar === 1 ? 'group' : 'bar';
      const tick = tickOfBeat(beat);
      const note = { channel: PERCUSSION, noteNumber: KEYS[kind] };
      placed.push({ tick, event: { type: 'noteOn', ...note, velocity: VELOCITY[kind] } as Placed['event'] });
      placed.push({ tick: tick + LENGTH, event: { type: 'noteOff', ...note, velocity: 0 } as Placed['event'] });
    }
  }
  return placed;
}
