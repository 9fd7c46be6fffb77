import type { Lufs, RunOptions, Seconds } from '../../units/index.js';
import type { Practice } from '../count-along.js';
import { HEARING_CAUTION, type Marker } from '../files/marker.js';
import { master } from '../mix/master.js';
import { mix, type MixerChoice } from '../mix/mix.js';
import type { Stereo } from '../sound/stereo.js';

/** The drills for the ear. @experimental */
export const DRILLS = ['the-one', 'ahead', 'phrase-matched'] as const;
/** One of `DRILLS`. @experimental */
export type DrillName = (typeof DRILLS)[number];

/** How a question is answered: by one of the drill's choices, or by a tap on an instant. @experimental */
export type DrillReply =
  | { readonly kind: 'choice'; /** Index of the right one. */ readonly right: number }
  | { readonly kind: 'tap'; /** Seconds from the start of the sound. */ readonly at: Seconds };

/** A question and its answer. @experimental */
export interface DrillItem {
  readonly number: number;
  /** Where it begins in the sound. */
  readonly time: Seconds;
  /** The stretch of the sound that is heard for it. */
  readonly from: Seconds;
  readonly to: Seconds;
  readonly question: string;
  readonly answer: string;
  readonly reply: DrillReply;
}

/** How a drill is answered. @experimental */
export interface DrillRules {
  readonly instruction: string;
  /** Answers to choose from; none where the answer is a tap. */
  readonly choices: readonly string[];
  /** Length of a beat of what is played, and beats in a bar: a tap is measured by them. */
  readonly beat: Seconds;
  readonly beatsPerBar: number;
}

/** A drill: sound and answer sheet. @experimental */
export interface Drill extends Practice, DrillRules {
  readonly name: DrillName;
  readonly items: readonly DrillItem[];
}

/** How a drill is made; the same seed asks the same questions. @experimental */
export interface DrillOptions extends RunOptions {
  /** The same seed asks the same questions; default 1. */
  readonly seed?: number;
  readonly loudness?: Lufs;
  readonly mixer?: MixerChoice;
}

/** Silence between questions. */
export const PAUSE: Seconds = 1.5;

/** Brings the sound of a drill to its level and gives every question its marker. */
export async function finish(
  drill: DrillRules & Pick<Drill, 'name' | 'items'>,
  title: string,
  sound: Stereo,
  options: DrillOptions,
): Promise<Drill> {
  const mixed = await mix([{ sound, whole: [{ time: 0, level: 1 }] }], sound.left.length, options.mixer);
  const level = master(mixed.sound, options.loudness);
  const markers: Marker[] = drill.items.map(({ number, time }) => ({ time, label: `question ${number}` }));
  const comment = `${drill.instruction} ${HEARING_CAUTION}`;
  return {
    ...drill,
    sound: { ...mixed.sound, title, comment, markers },
    level,
    notices: mixed.notice === null ? [] : [mixed.notice],
  };
}
