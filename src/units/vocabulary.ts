/** The layers of a track, from the floor up. "Drums out" is kick and percussion leaving together. @public */
export const LAYERS = ['kick', 'bass', 'percussion', 'harmony', 'voice'] as const;
/** One of `LAYERS`. @public */
export type Layer = (typeof LAYERS)[number];

/**
 * What a section does, in the words of the trade. A drop is the first main section after a build-up or breakdown.
 * @public
 */
export const SECTION_FUNCTIONS = ['intro', 'build-up', 'drop', 'main', 'breakdown', 'outro'] as const;
/** One of `SECTION_FUNCTIONS`. @public */
export type SectionFunction = (typeof SECTION_FUNCTIONS)[number];

/** What happens to a layer at an event. @public */
export const CHANGES = ['enters', 'leaves'] as const;
/** One of `CHANGES`. @public */
export type Change = (typeof CHANGES)[number];

/**
 * How steady the tempo is: `constant` (made to a clock), `steps` (pieces with their own tempo), `drifting` (a live
 * drummer, a turntable), `free` (no tempo worth a number).
 * @public
 */
export const STEADINESS = ['constant', 'steps', 'drifting', 'free'] as const;
/** One of `STEADINESS`. @public */
export type Steadiness = (typeof STEADINESS)[number];

/**
 * How a track can leave its own pattern, and which bar an irregularity is "at":
 * - `added-bars`: the first surplus bar (start + usual length); `dropped-bars`: the bar at which the next phrase starts early;
 * - `added-beats`, `dropped-beats`: the bar that has more or fewer beats than the metre says;
 * - `odd-phrase`: the first bar of the phrase; `pick-up`: the bar whose one the pick-up leads to;
 * - `beatless-passage`, `half-time`: the first bar of the passage; `tempo-change`: the first bar at the new tempo;
 * - `drift`: bar 1.
 * @public
 */
export const IRREGULARITY_KINDS = [
  'added-bars',
  'dropped-bars',
  'added-beats',
  'dropped-beats',
  'odd-phrase',
  'pick-up',
  'beatless-passage',
  'tempo-change',
  'drift',
  'half-time',
] as const;
/** One of `IRREGULARITY_KINDS`. @public */
export type IrregularityKind = (typeof IRREGULARITY_KINDS)[number];

/** Note names of the twelve pitch classes, sharps as in open formats. @public */
export const PITCH_CLASSES = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;
/** One of `PITCH_CLASSES`: C is 0, B is 11. @public */
export type PitchClass = (typeof PITCH_CLASSES)[number];

/** The two modes that keys are told in. @public */
export const MODES = ['major', 'minor'] as const;
/** One of `MODES`. @public */
export type Mode = (typeof MODES)[number];
