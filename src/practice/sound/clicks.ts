import type { Fraction, Hertz, Seconds } from '../../units/index.js';
import { RATE, silence, type Stereo } from './stereo.js';

/** A beat that is clicked. @experimental */
export interface ClickBeat {
  readonly time: Seconds;
  /** Beat of the bar and bar of the group, from 1. */
  readonly beat: number;
  readonly groupBar: number;
}

/** The sound of a click: partials of a struck bar that die away. */
interface Voice {
  readonly pitch: Hertz;
  readonly decay: Seconds;
  readonly level: Fraction;
  /** A second, higher tone that only the one of a group has. */
  readonly over?: Hertz;
}

/**
 * Bars 1 to 4 of a group climb a major chord, so that one hears where in the group one is; the one of a group rings
 * longest and has a tone of its own above it; other beats are short and soft. A5 is 880 Hz (ISO 16: A4 is 440 Hz).
 */
const ONES: readonly Voice[] = [
  { pitch: 880, decay: 0.09, level: 0.9, over: 2640 },
  { pitch: 1108.73, decay: 0.045, level: 0.62 },
  { pitch: 1318.51, decay: 0.045, level: 0.62 },
  { pitch: 1760, decay: 0.045, level: 0.62 },
];
const OTHER: Voice = { pitch: 660, decay: 0.018, level: 0.34 };

/** Clicks never start softer than this fast: a click that fades in has no place in time. */
const ATTACK: Seconds = 0.0005;
const LONGEST: Seconds = 0.4;

/**
 * The click of a beat: the one of a group, of a bar (by bar of the group), or any other beat, all different.
 * @experimental
 */
export function clickFor({ beat, groupBar }: Pick<ClickBeat, 'beat' | 'groupBar'>): Float32Array {
  return strike(beat === 1 ? ONES[(groupBar - 1) % ONES.length] : OTHER);
}

/**
 * Clicks as sound: each starts within half a sample of its beat.
 * @experimental
 * @param frames of the result; clicks outside are left out
 * @param level 0 to 1
 */
export function clickTrack(beats: readonly ClickBeat[], frames: number, level: Fraction = 1): Stereo {
  const out = silence(frames);
  const sounds = new Map<string, Float32Array>();
  for (const click of beats) {
    const name = `${click.beat === 1}/${click.groupBar}`;
    const sound = sounds.get(name) ?? clickFor(click);
    sounds.set(name, sound);
    addAt(out, sound, click.time, level);
  }
  return out;
}

/** Adds a sound at a time, the same in both channels. */
export function addAt(out: Stereo, sound: Float32Array, time: Seconds, level: Fraction): void {
  const at = Math.round(time * RATE);
  for (let i = Math.max(0, -at); i < sound.length && at + i < out.left.length; i++) {
    out.left[at + i] += level * sound[i];
    out.right[at + i] += level * sound[i];
  }
}

function strike({ pitch, decay, level, over }: Voice): Float32Array {
  const sound = new Float32Array(Math.round(Math.min(LONGEST, decay * 7) * RATE));
  for (let i = 0; i < sound.length; i++) {
    const t = i / RATE;
    const tone = (f: Hertz) => Math.cos(2 * Math.PI * f * t);
    const body = tone(pitch) + 0.35 * tone(pitch * 2.76) * Math.exp(-t / (decay / 3));
    const ring = over === undefined ? 0 : 0.5 * tone(over) * Math.exp(-t / (decay / 2));
    sound[i] = 0.6 * level * Math.min(1, t / ATTACK) * Math.exp(-t / decay) * (body + ring);
  }
  return sound;
}
