import { PITCH_CLASSES } from '../../units/index.js';
import type { Arrangement } from '../arrangement.js';

/** A chord of the progression, as MIDI notes. */
export interface Chord {
  /** Scale degree from 1 to 7. */
  readonly degree: number;
  /** Root between E1 (28) and D#2 (39). */
  readonly root: number;
  /** Close voicing around C4 (60). */
  readonly notes: readonly number[];
}

const SCALES = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 10] } as const;

/** Semitones above the tonic of a scale step (0 is the tonic; any whole number). */
export function scaleSemitones(mode: 'major' | 'minor', step: number): number {
  const octave = Math.floor(step / 7);
  return SCALES[mode][step - 7 * octave] + 12 * octave;
}

/** A scale step as the MIDI note nearest to `centre`. */
export function scaleNote(key: Arrangement['key'], step: number, centre: number): number {
  const pitch = PITCH_CLASSES.indexOf(key.tonic) + scaleSemitones(key.mode, step);
  return pitch + 12 * Math.round((centre - pitch) / 12);
}

function nearest(pitch: number, low: number): number {
  return low + ((((pitch - low) % 12) + 12) % 12);
}

/** The chord on a degree: a triad, with the seventh on minor and major chords where `sevenths` asks for it. */
export function chordOn(key: Arrangement['key'], degree: number, sevenths: boolean): Chord {
  const tonic = PITCH_CLASSES.indexOf(key.tonic);
  const steps = sevenths ? [0, 2, 4, 6] : [0, 2, 4];
  const pitches = steps.map((step) => tonic + scaleSemitones(key.mode, degree - 1 + step));
  return {
    degree,
    root: nearest(pitches[0], 28),
    notes: pitches.map((pitch) => nearest(pitch, 54)).sort((a, b) => a - b),
  };
}
