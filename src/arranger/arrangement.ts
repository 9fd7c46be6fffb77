import type { Bpm, Fraction, Layer, Mode, PitchClass, Seconds, SectionFunction } from '../units/index.js';

/** Styles in our own description; each is a row of the table in `styles.ts`. */
export const STYLES = [
  'warm-four',
  'bright-four',
  'driving-four',
  'hard-four',
  'slow-swing',
  'broken-step',
  'quick-breaks',
  'live-band',
  'lilting-three',
] as const;
export type StyleName = (typeof STYLES)[number];

/** What happens at the end of a phrase: drums that lead over to the next one. */
export const FILLS = ['none', 'kick-out-beat', 'kick-out-bar', 'snare-roll', 'toms', 'stop'] as const;
export type Fill = (typeof FILLS)[number];

/** How the harmony layer plays; only pads are without a pulse of their own. */
export const TEXTURES = ['pad', 'stabs', 'arp', 'lead'] as const;
export type Texture = (typeof TEXTURES)[number];

/** A phrase of an arrangement. What is left out is chosen after the function of its section. */
export interface ArrangedPhrase {
  /** Its length in bars, surplus bars included. */
  readonly bars: number;
  /** Layers that can be heard in it. */
  readonly layers: readonly Layer[];
  /** How many of `bars` are surplus to the usual length; negative when bars were dropped. */
  readonly addedBars?: number;
  /** The phrase has an odd length of its own (an irregularity that is neither added nor dropped bars). */
  readonly odd?: boolean;
  /** Bars of the phrase (from 1) with more or fewer beats than the metre says. */
  readonly oddBars?: readonly { readonly bar: number; readonly beats: number }[];
  /** These layers start so many beats before the one of this phrase. */
  readonly pickUp?: { readonly beats: number; readonly layers: readonly Layer[] };
  /** The backbeat falls at half speed: kick on 1, snare on 3. */
  readonly halfTime?: boolean;
  readonly textures?: readonly Texture[];
  /** How many percussion parts play, from a lone hat (0.1) to everything (1). */
  readonly density?: Fraction;
  /** Opening of the filter over the harmony at the start and the end of the phrase. */
  readonly brightness?: readonly [Fraction, Fraction];
  readonly fill?: Fill;
  /** A snare roll that gathers pace over the whole phrase. */
  readonly roll?: boolean;
  /** A riser over the last bars of the phrase; 0 for none. */
  readonly riserBars?: number;
  /** A crash on its one. */
  readonly crash?: boolean;
}

/** A section: a function and the phrases that tile it. */
export interface ArrangedPart {
  readonly function: SectionFunction;
  readonly phrases: readonly ArrangedPhrase[];
  /** Tempo from here on; left out when it stays. */
  readonly bpm?: Bpm;
}

/** A drummer without a click: smooth wandering of the tempo and the scatter of single strokes around it. */
export interface Drift {
  /** Largest departure from the tempo, as a share of it. */
  readonly depth: Fraction;
  /** Standard deviation of each stroke around the beat. */
  readonly jitter: Seconds;
}

/** A whole track as plain data; `renderArrangement` makes sound and truth of it. */
export interface Arrangement {
  readonly seed: number;
  readonly style: StyleName;
  readonly bpm: Bpm;
  readonly beatsPerBar: number;
  /** Where the second of two sixteenths falls: 0.5 is straight, 0.67 a triplet. */
  readonly swing: Fraction;
  readonly key: { readonly tonic: PitchClass; readonly mode: Mode };
  /** Scale degrees (1 to 7), one a bar; it starts again with each phrase. */
  readonly progression: readonly number[];
  /** A second progression for breakdowns and build-ups. */
  readonly breakProgression?: readonly number[];
  /** Silence before the first one. */
  readonly leadIn: Seconds;
  readonly drift?: Drift;
  readonly parts: readonly ArrangedPart[];
}
