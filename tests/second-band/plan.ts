import type { Layer, SectionFunction } from '../../src/units/index.js';
import type { StyleName } from './styles.js';

/** How a phrase leads over to the next one. */
export const ENDINGS = ['none', 'toms', 'snare-run', 'gap', 'kick-away', 'backwards', 'stutter', 'claps'] as const;
export type Ending = (typeof ENDINGS)[number];

/** How the chords sound: held (no pulse of their own), struck, or both. */
export type Manner = 'held' | 'struck' | 'both';

/** A phrase as it will be played. */
export interface Phrase {
  bars: number;
  layers: Layer[];
  /** This layer comes in at this bar of the phrase (from 1) and not at its start. */
  late: { layer: Layer; bar: number } | null;
  manner: Manner;
  ending: Ending;
  /** Bars at its end that are more than usual; negative: fewer. */
  added: number;
  odd: boolean;
  oddBar: { bar: number; beats: number } | null;
  pickUp: { beats: number; layers: Layer[] } | null;
  halfTime: boolean;
}

export interface Section {
  function: SectionFunction;
  phrases: Phrase[];
  /** New tempo from here on. */
  bpm: number | null;
  /** Which of the track's ways to play: another pattern, another register. */
  variant: number;
}

/** A track as data. */
export interface Plan {
  readonly seed: number;
  readonly style: StyleName;
  bpm: number;
  readonly unit: 4 | 8 | 16;
  readonly swing: number;
  readonly tonic: number;
  readonly mode: 'major' | 'minor';
  /** Chord roots as scale degrees from 0, one a bar; starts again with each phrase. */
  readonly loop: readonly number[];
  readonly leadIn: number;
  readonly acoustic: boolean;
  /** Wandering of the tempo, as a share of it; 0 for a clock. */
  drift: number;
  readonly sections: Section[];
}
