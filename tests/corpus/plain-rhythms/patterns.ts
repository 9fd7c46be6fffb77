/** One bar of a rhythm: where each drum strikes, in sixteenths (or the steps that `stepsPerBeat` says). */
export interface Pattern {
  readonly name: string;
  /** Tempos that the style is played at (BPM): common practice, no source. */
  readonly tempo: readonly [number, number];
  readonly beatsPerBar: number;
  readonly stepsPerBeat: number;
  readonly kick: readonly number[];
  readonly snare: readonly number[];
  readonly hat: readonly number[];
  /** Steps on which the bass plays; empty: held notes. */
  readonly bass: readonly number[];
}

const every = (step: number, from = 0, length = 16): number[] =>
  Array.from({ length: Math.ceil((length - from) / step) }, (_, i) => from + i * step);

const four = (
  name: string,
  tempo: readonly [number, number],
  rows: Partial<Pick<Pattern, 'kick' | 'snare' | 'hat' | 'bass' | 'stepsPerBeat'>>,
): Pattern => ({ name, tempo, beatsPerBar: 4, stepsPerBeat: 4, kick: [], snare: [], hat: [], bass: [], ...rows });

/** Rhythms as they are taught to beginners at the drums and at the drum machine: common practice, no source. */
export const PATTERNS: readonly Pattern[] = [
  four('kick on every beat', [110, 150], { kick: every(4) }),
  four('kick and off-beat hat', [116, 142], { kick: every(4), hat: every(4, 2) }),
  four('kick, clap, off-beat hat', [116, 134], { kick: every(4), snare: [4, 12], hat: every(4, 2) }),
  four('kick, clap, hats in sixteenths', [118, 138], { kick: every(4), snare: [4, 12], hat: every(1) }),
  four('kick and off-beat bass', [126, 146], { kick: every(4), hat: every(4, 2), bass: every(4, 2) }),
  four('kick and rolling bass', [128, 148], {
    kick: every(4),
    snare: [4, 12],
    bass: [1, 2, 3, 5, 6, 7, 9, 10, 11, 13, 14, 15],
  }),
  four('disco', [110, 128], { kick: every(4), snare: [4, 12], hat: every(2), bass: every(2) }),
  four('rock in eighths', [88, 168], { kick: [0, 8, 10], snare: [4, 12], hat: every(2), bass: every(2) }),
  four('rock, simple', [76, 150], { kick: [0, 8], snare: [4, 12], hat: every(2) }),
  four('slow beat', [78, 102], { kick: [0, 6, 10], snare: [4, 12], hat: every(2), bass: [0, 6, 10] }),
  four('slow beat, pushed', [80, 98], { kick: [0, 7, 10], snare: [4, 12], hat: every(1), bass: [0, 7] }),
  four('breakbeat', [120, 140], { kick: [0, 10], snare: [4, 7, 9, 12, 15], hat: every(2) }),
  four('fast breaks', [160, 178], { kick: [0, 10], snare: [4, 12], hat: every(2), bass: [0, 10] }),
  four('fast breaks, chopped', [162, 176], { kick: [0, 2, 10, 11], snare: [4, 7, 9, 12, 15], hat: every(2) }),
  four('two-step', [128, 138], { kick: [0, 10], snare: [4, 12], hat: [2, 6, 7, 10, 14, 15] }),
  four('half-time at 140', [136, 146], { kick: [0, 6], snare: [8], hat: every(2), bass: [0, 6] }),
  four('three-three-two', [88, 108], { kick: every(4), snare: [3, 6, 11, 14], hat: every(2), bass: [0, 4, 8, 12] }),
  four('off-beat chords', [128, 152], { kick: [8], snare: [8], hat: every(2), bass: [0, 4, 8, 12] }),
  four('triplet shuffle', [84, 140], { stepsPerBeat: 3, kick: [0, 6], snare: [3, 9], hat: [0, 2, 3, 5, 6, 8, 9, 11] }),
  four('swung eighths', [120, 180], { stepsPerBeat: 3, hat: [0, 3, 5, 6, 9, 11], snare: [3, 9], bass: [0, 3, 6, 9] }),
  four('metronome', [60, 180], { hat: every(4) }),
  four('ballad', [60, 80], { kick: [0, 8], snare: [4, 12], hat: every(2), bass: [0, 8] }),
  four('ballad in triplets', [54, 76], { stepsPerBeat: 3, kick: [0, 5, 6], snare: [3, 9], hat: every(1, 0, 12) }),
  four('funk', [94, 122], { kick: [0, 2, 10, 13], snare: [4, 12, 15], hat: every(1), bass: [0, 3, 10, 13] }),
  four('electro', [118, 136], { kick: [0, 6, 10], snare: [4, 12], hat: every(1), bass: [0, 3, 6, 10, 14] }),
  four('kick and late bass', [108, 122], { kick: every(4), hat: every(1), snare: [4, 12], bass: [3, 7, 10, 14] }),
];

/** Rhythms of other metres: common practice, no source. */
export const OTHER_METRES: readonly Pattern[] = [
  { ...four('waltz', [84, 180], { kick: [0], snare: [4, 8], hat: every(4, 0, 12), bass: [0] }), beatsPerBar: 3 },
  {
    ...four('waltz, busy', [84, 160], { kick: [0, 6], snare: [4, 8], hat: every(2, 0, 12), bass: [0, 8] }),
    beatsPerBar: 3,
  },
  {
    ...four('five', [96, 176], { kick: [0, 6, 12], snare: [8, 16], hat: every(2, 0, 20), bass: [0, 12] }),
    beatsPerBar: 5,
  },
  {
    ...four('five, three and two', [100, 170], {
      kick: [0, 12],
      snare: [4, 8, 16],
      hat: every(4, 0, 20),
      bass: [0, 6, 12, 16],
    }),
    beatsPerBar: 5,
  },
  {
    ...four('seven', [100, 180], { kick: [0, 8, 16], snare: [4, 12, 20, 24], hat: every(2, 0, 28), bass: [0, 8, 16] }),
    beatsPerBar: 7,
  },
  {
    ...four('seven, four and three', [100, 170], {
      kick: [0, 6, 16],
      snare: [8, 24],
      hat: every(4, 0, 28),
      bass: [0, 16],
    }),
    beatsPerBar: 7,
  },
];

/** Rhythms that nothing is fitted on, to see what holds beyond those that are. */
export const KEPT_BACK: readonly Pattern[] = [
  four('snare on every beat', [100, 144], { kick: [0, 6, 8, 14], snare: every(4), hat: every(2), bass: [0, 6, 8, 14] }),
  four('bossa', [112, 150], { kick: [0, 6, 8, 14], snare: [0, 3, 6, 10, 13], hat: every(2), bass: [0, 6, 8, 14] }),
  four('kick and rims in threes', [118, 128], { kick: every(4), snare: [3, 6, 10, 13], hat: every(4, 2) }),
  four('fast kick and off-beat bass', [148, 176], { kick: every(4), hat: every(4, 2), bass: every(4, 2) }),
  four('five kicks', [128, 142], { kick: [0, 4, 8, 11, 14], snare: [4, 12], hat: every(2), bass: [0, 11] }),
];
