import type { Random } from '../random.js';

export type BassLine = 'off-beat' | 'rolling' | 'octaves' | 'long' | 'wandering' | 'leaning' | 'lilting';

/** A bass note of a bar: offset and length in beats, semitones above the root, level. */
export interface BassNote {
  readonly offset: number;
  readonly length: number;
  readonly interval: number;
  readonly level: number;
}

const note = (offset: number, length: number, interval = 0, level = 1): BassNote => ({
  offset,
  length,
  interval,
  level,
});

/** A line of its own for the track: sixteenths that lean away from the beat, the root on some of them. */
function wandering(beats: number, random: Random): BassNote[] {
  const places: number[] = [];
  for (let step = 0; step < beats * 4; step++) {
    const likely = step === 0 ? 0.7 : step % 4 === 0 ? 0.2 : step % 2 === 0 ? 0.6 : 0.33;
    if (random.chance(likely)) places.push(step / 4);
  }
  if (places.length < 3) places.push(beats - 1.5, beats - 0.5);
  const sorted = [...new Set(places)].sort((a, b) => a - b);
  return sorted.map((offset, i) => {
    const until = (sorted[i + 1] ?? beats) - offset;
    const interval = i === 0 ? 0 : random.pick([0, 0, 12, 7, 0, 12, -5]);
    return note(offset, Math.min(until * 0.85, random.pick([0.22, 0.4, 0.7])), interval, random.between(0.85, 1));
  });
}

/** The notes of a bar. `turn` asks for the variation at the end of four bars. */
export function bassNotes(line: BassLine, beats: number, turn: boolean, random: Random): BassNote[] {
  const list: BassNote[] = [];
  switch (line) {
    case 'off-beat':
      for (let beat = 0; beat < beats; beat++) list.push(note(beat + 0.5, 0.38, turn && beat === beats - 1 ? 12 : 0));
      return list;
    case 'rolling':
      for (let beat = 0; beat < beats; beat++) {
        list.push(note(beat + 0.25, 0.2, 0, 0.85), note(beat + 0.5, 0.2, 0, 1));
        list.push(note(beat + 0.75, 0.2, turn && beat >= beats - 2 ? 12 : 0, 0.9));
      }
      return list;
    case 'octaves':
      for (let beat = 0; beat < beats; beat++)
        list.push(note(beat, 0.4), note(beat + 0.5, 0.4, turn && beat === beats - 1 ? 7 : 12, 0.9));
      return list;
    case 'long':
      list.push(note(0, beats - 0.75, 0));
      list.push(note(beats - 0.5, 0.45, turn ? 7 : 12, 0.8));
      return list;
    case 'leaning':
      list.push(note(0, 1.2), note(1.5, 0.8, 0, 0.9), note(2.5, 1.2, turn ? -5 : 7, 0.9));
      return list;
    case 'lilting':
      list.push(note(0, 0.9), note(1.5, 0.4, 7, 0.8), note(2, 0.4, 12, 0.85), note(2.5, 0.4, turn ? 7 : 0, 0.8));
      return list;
    case 'wandering':
      return wandering(beats, random.fork(turn ? 'turn' : 'line'));
  }
}
