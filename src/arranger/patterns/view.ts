import type { Seconds } from '../../units/index.js';
import type { Arrangement } from '../arrangement.js';
import type { PhrasePlan } from '../phrase.js';
import type { Random } from '../random.js';
import type { Shot } from '../sound/shot.js';
import type { Kit } from '../kit.js';
import type { Style } from '../styles.js';
import type { TimelineBar } from '../timeline.js';
import type { Chord } from './harmony.js';

/** Where sounds are mixed together before they meet in the master. */
export const BUSES = ['kick', 'drums', 'room', 'bass', 'chords', 'lead', 'voice', 'effects'] as const;
export type Bus = (typeof BUSES)[number];

/** How a sound is placed. */
export interface Placing {
  readonly level: number;
  /** −1 is left, 1 is right. */
  readonly pan?: number;
  /** The position is where the sound ends, not where it starts. */
  readonly ends?: boolean;
}

/** Ways of playing that stay for a whole track. */
export interface Habits {
  /** Which of several hat patterns. */
  readonly drums: number;
  /** The kick leaves out the last beat of every four bars. */
  readonly gaps: boolean;
  /** The last stab of a bar takes the next chord early. */
  readonly pushes: boolean;
  /** The last bass note of four bars leads to the next root. */
  readonly leads: boolean;
}

/** Everything that a pattern needs to play one bar. */
export interface BarView {
  readonly arrangement: Arrangement;
  readonly style: Style;
  readonly kit: Kit;
  readonly bar: TimelineBar;
  readonly plan: PhrasePlan;
  /** Plan of the next phrase, `null` at the end. */
  readonly next: PhrasePlan | null;
  /** How many phrases with this function came before: what comes back comes back varied. */
  readonly verse: number;
  /** Bars left in the phrase, this one included. */
  readonly barsLeft: number;
  /** Chords of this bar and the next. */
  readonly chord: Chord;
  readonly nextChord: Chord;
  /** Bars for which the chord has been held and will be held on, within the phrase. */
  readonly chordAge: number;
  readonly chordBars: number;
  readonly habits: Habits;
  /** A stream of its own for each bar. */
  readonly random: Random;
  /** A stream that is the same in each bar of the track. */
  readonly constant: Random;
  /** Places a sound at an offset in beats from the start of the bar; swing is applied. */
  hit(bus: Bus, shot: Shot, offset: number, placing: Placing): void;
  /** Duration between two offsets in beats. */
  seconds(from: number, to: number): Seconds;
}
