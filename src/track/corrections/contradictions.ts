import type { Bpm, Seconds } from '../../units/index.js';
import type { Correction } from './correction.js';

/** Two times nearer than this mean the same one, whatever the tempo (s). */
const SAME_ONE: Seconds = 0.15;
/** Two tempos within this share of each other mean the same reading. */
const SAME_TEMPO = 0.04;
/** Two bars do not start nearer to each other than this: two beats at 300 BPM (s). */
const SHORTEST_BAR: Seconds = 0.4;
/** An event that is said not to happen does not happen within two bars; as a time, at the tempo of slow music. */
const SAME_EVENT: Seconds = 1;

/** Whether two tempos are one reading. @public */
export function isSameTempo(a: Bpm, b: Bpm): boolean {
  return Math.abs(a / b - 1) <= SAME_TEMPO;
}

/** Whether a correction says nothing that another has not said. @public */
export function saysTheSame(a: Correction, b: Correction): boolean {
  return JSON.stringify(Object.entries(a).sort()) === JSON.stringify(Object.entries(b).sort());
}

/** Whether two corrections cannot both be so, by what they say alone. @public */
export function contradict(a: Correction, b: Correction): boolean {
  return oneWay(a, b) || oneWay(b, a);
}

function oneWay(a: Correction, b: Correction): boolean {
  if (a.kind === 'tempo' && b.kind === 'tempo') return !isSameTempo(a.bpm, b.bpm);
  if (a.kind === 'metre' && b.kind === 'metre') return a.beatsPerBar !== b.beatsPerBar;
  if (a.kind === 'tempo' || a.kind === 'metre' || b.kind === 'tempo' || b.kind === 'metre') return false;
  if (a.kind === 'first-one' && b.kind === 'first-one') return !near(a, b);
  if (a.kind === 'first-one') return happens(b) ? b.time < a.time - SAME_ONE : atOne(b) && near(a, b);
  if (b.kind === 'first-one') return false;
  if (a.kind === 'bar' && b.kind === 'bar') return !near(a, b) && Math.abs(a.time - b.time) < SHORTEST_BAR;
  if (a.kind === 'phrase' && b.kind === 'phrase') return a.starts !== b.starts && near(a, b);
  if (a.kind === 'section' && b.kind === 'section')
    return near(a, b) && (a.starts !== b.starts || (a.starts && unlike(a.function, b.function)));
  if (a.kind === 'phrase' && b.kind === 'section') return near(a, b) && !a.starts && b.starts;
  if (a.kind === 'event' && b.kind === 'event' && a.layer === b.layer) {
    if (a.happens && b.happens) return a.change !== b.change && near(a, b);
    return a.change === b.change && a.happens !== b.happens && Math.abs(a.time - b.time) < SAME_EVENT;
  }
  return false;
}

type Placed = Extract<Correction, { time: Seconds }>;

/** Whether something is said to be there, rather than not. */
function happens(c: Placed): boolean {
  return c.kind === 'event' ? c.happens : c.kind === 'phrase' || c.kind === 'section' ? c.starts : true;
}

/** Whether it speaks of the first beat of something. */
function atOne(c: Placed): boolean {
  return c.kind === 'phrase' || c.kind === 'section';
}

function near(a: Placed, b: Placed): boolean {
  return Math.abs(a.time - b.time) < SAME_ONE;
}

function unlike<T>(a: T | null, b: T | null): boolean {
  return a !== null && b !== null && a !== b;
}
