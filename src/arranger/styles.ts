import type { Fraction, Seconds } from '../units/index.js';
import type { StyleName } from './arrangement.js';
import type { BassName } from './instruments/bass.js';
import type { ChordName } from './instruments/keys.js';
import type { KickName } from './instruments/kick.js';
import type { BassLine } from './patterns/bass-lines.js';
import type { GrooveName, PercussionPart } from './patterns/grooves.js';

/** What makes a style: instruments, patterns and the sound of the mix. */
export interface Style {
  /** Drums and keys to draw from; the first is the most usual. */
  readonly kicks: readonly KickName[];
  readonly groove: GrooveName;
  /** Order in which percussion parts join as the density rises. */
  readonly order: readonly PercussionPart[];
  readonly backbeat: 'clap' | 'snare' | 'both';
  readonly basses: readonly BassName[];
  readonly lines: readonly BassLine[];
  readonly stabs: readonly ChordName[];
  readonly pads: readonly ChordName[];
  readonly sevenths: boolean;
  /** How deep the kick ducks bass and harmony. */
  readonly duck: Fraction;
  /** Reverberation time. */
  readonly room: Seconds;
  /** Length of the speaker's throat: 1 low, 1.18 high; and the middle of the range as a MIDI note. */
  readonly voice: { readonly size: number; readonly centre: number };
  /** How hard the master is driven. */
  readonly drive: number;
}

const LATE_RIDE = ['closed', 'open', 'back', 'skins', 'shaker', 'ghost', 'ride'] as const;
const CLAP_FIRST = ['back', 'closed', 'shaker', 'open', 'skins', 'ride', 'ghost'] as const;
const BAND = ['closed', 'back', 'ghost', 'open', 'skins', 'ride', 'shaker'] as const;

/** The styles, a row each. */
export const STYLE_TABLE: Readonly<Record<StyleName, Style>> = {
  'warm-four': {
    kicks: ['round', 'dusty', 'boxy'],
    groove: 'floor',
    order: LATE_RIDE,
    backbeat: 'clap',
    basses: ['rounded', 'fingered', 'booming'],
    lines: ['off-beat', 'wandering'],
    stabs: ['stab', 'organ', 'tines'],
    pads: ['pad', 'glass'],
    sevenths: true,
    duck: 0.5,
    room: 1.6,
    voice: { size: 1.15, centre: 65 },
    drive: 1.15,
  },
  'bright-four': {
    kicks: ['tight', 'clicky'],
    groove: 'floor',
    order: CLAP_FIRST,
    backbeat: 'both',
    basses: ['plucked', 'rounded', 'squelching'],
    lines: ['octaves', 'wandering'],
    stabs: ['bright', 'organ', 'stab'],
    pads: ['pad', 'choir'],
    sevenths: false,
    duck: 0.6,
    room: 1.8,
    voice: { size: 1.18, centre: 67 },
    drive: 1.15,
  },
  'driving-four': {
    kicks: ['tight', 'hard', 'clicky'],
    groove: 'floor',
    order: LATE_RIDE,
    backbeat: 'clap',
    basses: ['plucked', 'squelching', 'growling'],
    lines: ['rolling', 'off-beat'],
    stabs: ['stab', 'bright'],
    pads: ['choir', 'glass'],
    sevenths: false,
    duck: 0.65,
    room: 2.2,
    voice: { size: 1.05, centre: 58 },
    drive: 1.2,
  },
  'hard-four': {
    kicks: ['hard', 'clicky'],
    groove: 'floor',
    order: CLAP_FIRST,
    backbeat: 'clap',
    basses: ['growling', 'squelching', 'plucked'],
    lines: ['rolling', 'off-beat'],
    stabs: ['bright', 'stab'],
    pads: ['choir', 'pad'],
    sevenths: false,
    duck: 0.75,
    room: 2.6,
    voice: { size: 1, centre: 55 },
    drive: 1.35,
  },
  'slow-swing': {
    kicks: ['boxy', 'dusty', 'round'],
    groove: 'floor',
    order: BAND,
    backbeat: 'snare',
    basses: ['fingered', 'booming', 'deep'],
    lines: ['wandering', 'long'],
    stabs: ['keys', 'tines', 'organ'],
    pads: ['pad', 'glass'],
    sevenths: true,
    duck: 0.35,
    room: 1.4,
    voice: { size: 1.12, centre: 62 },
    drive: 1.15,
  },
  'broken-step': {
    kicks: ['tight', 'dusty'],
    groove: 'broken',
    order: BAND,
    backbeat: 'both',
    basses: ['deep', 'booming', 'growling'],
    lines: ['long', 'wandering'],
    stabs: ['keys', 'organ', 'tines'],
    pads: ['choir', 'glass'],
    sevenths: true,
    duck: 0.5,
    room: 2,
    voice: { size: 1.18, centre: 67 },
    drive: 1.15,
  },
  'quick-breaks': {
    kicks: ['tight', 'clicky', 'dusty'],
    groove: 'breaks',
    order: BAND,
    backbeat: 'snare',
    basses: ['growling', 'deep', 'booming'],
    lines: ['long', 'leaning'],
    stabs: ['stab', 'tines', 'keys'],
    pads: ['choir', 'glass', 'pad'],
    sevenths: true,
    duck: 0.5,
    room: 2.4,
    voice: { size: 1.15, centre: 64 },
    drive: 1.25,
  },
  'live-band': {
    kicks: ['played', 'boxy'],
    groove: 'played',
    order: BAND,
    backbeat: 'snare',
    basses: ['fingered', 'rounded'],
    lines: ['octaves', 'wandering'],
    stabs: ['keys', 'tines', 'organ'],
    pads: ['pad', 'choir'],
    sevenths: false,
    duck: 0.2,
    room: 1.2,
    voice: { size: 1.1, centre: 62 },
    drive: 1.12,
  },
  'lilting-three': {
    kicks: ['round', 'boxy', 'tight'],
    groove: 'three',
    order: LATE_RIDE,
    backbeat: 'clap',
    basses: ['rounded', 'plucked', 'fingered'],
    lines: ['lilting', 'long'],
    stabs: ['keys', 'tines', 'stab'],
    pads: ['pad', 'glass'],
    sevenths: false,
    duck: 0.45,
    room: 2,
    voice: { size: 1.15, centre: 65 },
    drive: 1.15,
  },
};
