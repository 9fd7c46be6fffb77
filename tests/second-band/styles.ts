/**
 * How the second band plays: a row a style. Patterns are sixteenths of a bar, `x` loud, `o` medium, `-` soft; a longer one
 * runs over two bars. Common practice, no source.
 */
export interface Style {
  readonly bpm: readonly [lowest: number, highest: number];
  readonly beatsPerBar: 3 | 4;
  /** Where the second of two sixteenths may fall. */
  readonly swing: readonly [number, number];
  readonly kick: readonly string[];
  readonly back: readonly string[];
  readonly tops: readonly string[];
  readonly extra: readonly string[];
  /** Share of tracks whose drums sound like a drum kit and not like a machine. */
  readonly acoustic: number;
  readonly bass: readonly BassLine[];
  /** How far the kick pushes bass and chords down, in decibels. */
  readonly duck: readonly [number, number];
}

export type BassLine = 'offbeat' | 'eighths' | 'skipping' | 'long' | 'walking' | 'octaves' | 'answer';

const FOUR = ['x...x...x...x...', 'x...x...x...x...', 'x...x...x...x..-', 'x...x...x..-x...'];
const TWO_AND_FOUR = ['....x.......x...', '....x.......x..-', '....x..-....x...'];

export const STYLES = {
  stomp: {
    bpm: [117, 127],
    beatsPerBar: 4,
    swing: [0.5, 0.58],
    kick: FOUR,
    back: TWO_AND_FOUR,
    tops: ['..x...x...x...x.', '-.x.-.x.-.x.-.x.', '..x...x...x...xo'],
    extra: ['o-o-o-o-o-o-o-o-', '...o..o....o..o.', '-..o-..o-..o-.o.'],
    acoustic: 0.2,
    bass: ['offbeat', 'skipping', 'octaves', 'answer'],
    duck: [3, 9],
  },
  rolling: {
    bpm: [123, 132],
    beatsPerBar: 4,
    swing: [0.5, 0.55],
    kick: FOUR,
    back: ['............x...', '...o..x.....x..o', '....o..o.o..o...'],
    tops: ['-o-o-o-o-o-o-o-o', 'o-xoo-xoo-xoo-xo', '..o...o...o...o.'],
    extra: ['x..x..x...x.x...', '..o..o..o..o..o.', 'o.....o.o.....o.o.....o.o...o...'],
    acoustic: 0,
    bass: ['eighths', 'skipping', 'answer', 'offbeat'],
    duck: [2, 10],
  },
  anthem: {
    bpm: [126, 142],
    beatsPerBar: 4,
    swing: [0.5, 0.5],
    kick: ['x...x...x...x...'],
    back: ['....x.......x...'],
    tops: ['..x...x...x...x.', 'o-xoo-xoo-xoo-xo'],
    extra: ['--o---o---o---o-', 'o...o...o...o...'],
    acoustic: 0,
    bass: ['eighths', 'offbeat', 'long', 'octaves'],
    duck: [6, 14],
  },
  skip: {
    bpm: [126, 136],
    beatsPerBar: 4,
    swing: [0.54, 0.64],
    kick: ['x.........x.....', 'x.....x...x.....', 'x..........x....x......x..x.....'],
    back: ['....x.......x...', '....x..-....x.-.'],
    tops: ['o.o-o.o-o.oxo.o-', '..x-..x-..x-..x-', 'o-.oo-.oo-.oo-.o'],
    extra: ['...o.....o....o.', '-.-.--.-.-.---.-'],
    acoustic: 0.15,
    bass: ['skipping', 'answer', 'long'],
    duck: [0, 5],
  },
  rush: {
    bpm: [160, 176],
    beatsPerBar: 4,
    swing: [0.5, 0.53],
    kick: ['x.x.......xx....', 'x.........x.....', 'x.x.......x.....x.....x...x.....'],
    back: ['....x..o.o..x..o', '....x.......x...', '....x..-.-..x..-....x..-.o....x.'],
    tops: ['o.o.o.o.o.o.o.o.', 'o-o-o-o-o-o-o-o-', 'x.o.x.o.x.o.x.o.'],
    extra: ['--o---o---o---o-', '..o..o....o..o..'],
    acoustic: 0.4,
    bass: ['long', 'skipping', 'answer'],
    duck: [0, 4],
  },
  lope: {
    bpm: [84, 103],
    beatsPerBar: 4,
    swing: [0.5, 0.66],
    kick: ['x......xx.x.....', 'x.....x.x.......', 'x..x....x.x.....', 'x.......x.x....xx......x..x.....'],
    back: ['....x.......x...', '....x.......x..-'],
    tops: ['o.o.o.o.o.o.o.o.', 'x.o.x.o.x.o.x.oo', 'ooo.ooo.oo.oooo.'],
    extra: ['..-...-...-...-.', '.......o.....o..'],
    acoustic: 0.4,
    bass: ['long', 'answer', 'walking'],
    duck: [0, 4],
  },
  bandstand: {
    bpm: [100, 128],
    beatsPerBar: 4,
    swing: [0.5, 0.6],
    kick: ['x.....x.x.......', 'x...x...x...x...', 'x.......x.x.....', 'x..-....x.......'],
    back: ['....x.......x...', '....x..-.-..x...'],
    tops: ['x.o.x.o.x.o.x.o.', 'x.oox.oox.oox.oo', 'x...x...x...x...'],
    extra: ['....o.......o...', 'o-o-o-o-o-o-o-o-'],
    acoustic: 1,
    bass: ['walking', 'eighths', 'octaves', 'answer'],
    duck: [0, 0],
  },
  turning: {
    bpm: [92, 140],
    beatsPerBar: 3,
    swing: [0.5, 0.6],
    kick: ['x...........', 'x.......-...', 'x.....x.....'],
    back: ['....o...o...', '....x...x...', '........x...'],
    tops: ['o.o.o.o.o.o.', 'x...o...o...', 'o.-.o.-.o.-.'],
    extra: ['..-...-...-.', '....o...o...'],
    acoustic: 0.7,
    bass: ['long', 'walking', 'answer'],
    duck: [0, 3],
  },
  tresillo: {
    bpm: [90, 107],
    beatsPerBar: 4,
    swing: [0.5, 0.52],
    kick: ['x...x...x...x...', 'x.......x.......', 'x...x...x...x.o.'],
    back: ['...x..x....x..x.', '...o..x....o..x.', '....x.......x...'],
    tops: ['o.o.o.o.o.o.o.o.', '--o---o---o---o-'],
    extra: ['x..x..x.x..x..x.', '..o..o....o..o..'],
    acoustic: 0.1,
    bass: ['skipping', 'offbeat', 'answer'],
    duck: [0, 5],
  },
} as const satisfies Record<string, Style>;

export type StyleName = keyof typeof STYLES;
export const STYLE_NAMES = Object.keys(STYLES) as StyleName[];

const LEVELS: Readonly<Record<string, number>> = { x: 1, o: 0.6, '-': 0.3 };

/** Level of a stroke at a sixteenth of a bar; past the pattern's end its last beat comes again. */
export function strokeAt(pattern: string, perBar: number, bar: number, step: number): number {
  const bars = Math.max(1, Math.round(pattern.length / perBar));
  const inside = step < perBar ? step : perBar - 4 + (step % 4);
  return LEVELS[pattern[((bar - 1) % bars) * perBar + inside]] ?? 0;
}
