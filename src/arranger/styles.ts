import type { Fraction, Seconds } from '../units/index.js';
import type { StyleName } from './arrangement.js';
import type { BassName } from './instruments/bass.js';
import type { ChordName } from './instruments/keys.js';
import type { KickName } from './instruments/kick.js';
import type { BassLine } from './patterns/bass-lines.js';
import type { GrooveName, PercussionPart } from './patterns/grooves.js';

/** What makes a style: instruments, patterns and the sound of the mix. */
export interface Style {
  readonly kick: KickName;
  readonly groove: GrooveName;
  /** Order in which percussion parts join as the density rises. */
  readonly order: readonly PercussionPart[];
  readonly backbeat: 'clap' | 'snare' | 'both';
  readonly bass: BassName;
  readonly lines: readonly BassLine[];
  readonly stab: ChordName;
  readonly pad: ChordName;
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
    kick: 'round',
    groove: 'floor',
    order: LATE_RIDE,
    backbeat: 'clap',
    bass: 'rounded',
    lines: ['off-beat', 'wandering'],
    stab: 'stab',
    pad: 'pad',
    sevenths: true,
    duck: 0.5,
    room: 1.6,
    voice: { size: 1.15, centre: 65 },
    drive: 1,
  },
  'bright-four': {
    kick: 'tight',
    groove: 'floor',
    order: CLAP_FIRST,
    backbeat: 'both',
    bass: 'plucked',
    lines: ['octaves', 'wandering'],
    stab: 'bright',
    pad: 'pad',
    sevenths: false,
    duck: 0.6,
    room: 1.8,
    voice: { size: 1.18, centre: 67 },
    drive: 1.15,
  },
  'driving-four': {
    kick: 'tight',
    groove: 'floor',
    order: LATE_RIDE,
    backbeat: 'clap',
    bass: 'plucked',
    lines: ['rolling', 'off-beat'],
    stab: 'stab',
    pad: 'choir',
    sevenths: false,
    duck: 0.65,
    room: 2.2,
    voice: { size: 1.05, centre: 58 },
    drive: 1.2,
  },
  'hard-four': {
    kick: 'hard',
    groove: 'floor',
    order: CLAP_FIRST,
    backbeat: 'clap',
    bass: 'growling',
    lines: ['rolling', 'off-beat'],
    stab: 'bright',
    pad: 'choir',
    sevenths: false,
    duck: 0.75,
    room: 2.6,
    voice: { size: 1, centre: 55 },
    drive: 1.35,
  },
  'slow-swing': {
    kick: 'boxy',
    groove: 'floor',
    order: BAND,
    backbeat: 'snare',
    bass: 'fingered',
    lines: ['wandering', 'long'],
    stab: 'keys',
    pad: 'pad',
    sevenths: true,
    duck: 0.35,
    room: 1.4,
    voice: { size: 1.12, centre: 62 },
    drive: 1,
  },
  'broken-step': {
    kick: 'tight',
    groove: 'broken',
    order: BAND,
    backbeat: 'both',
    bass: 'deep',
    lines: ['long', 'wandering'],
    stab: 'keys',
    pad: 'choir',
    sevenths: true,
    duck: 0.5,
    room: 2,
    voice: { size: 1.18, centre: 67 },
    drive: 1.1,
  },
  'quick-breaks': {
    kick: 'tight',
    groove: 'breaks',
    order: BAND,
    backbeat: 'snare',
    bass: 'growling',
    lines: ['long', 'leaning'],
    stab: 'stab',
    pad: 'choir',
    sevenths: true,
    duck: 0.5,
    room: 2.4,
    voice: { size: 1.15, centre: 64 },
    drive: 1.25,
  },
  'live-band': {
    kick: 'played',
    groove: 'played',
    order: BAND,
    backbeat: 'snare',
    bass: 'fingered',
    lines: ['octaves', 'wandering'],
    stab: 'keys',
    pad: 'pad',
    sevenths: true,
    duck: 0.2,
    room: 1.2,
    voice: { size: 1.1, centre: 62 },
    drive: 1,
  },
  'lilting-three': {
    kick: 'round',
    groove: 'three',
    order: LATE_RIDE,
    backbeat: 'clap',
    bass: 'rounded',
    lines: ['lilting', 'long'],
    stab: 'keys',
    pad: 'pad',
    sevenths: false,
    duck: 0.45,
    room: 2,
    voice: { size: 1.15, centre: 65 },
    drive: 1.05,
  },
};
