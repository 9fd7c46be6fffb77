/**
 * Practice audio: count-along, rehearsals of a plan, drills for the ear, as WAV, FLAC or MP3 with markers.
 *
 * @module barwise/practice
 */
export { countAlong, type CountAlongOptions, type Practice } from './count-along.js';
export { CONTRASTS, lateBy, rehearse, type Contrast, type Rehearsal, type RehearsalOptions } from './rehearsal.js';
export type { RehearsalClock } from './rehearsal-clock.js';
export { FADE_SHAPES, type FadeShape } from './mix/handover.js';
export { HIGHEST_PEAK, LOUDEST, USUAL_LOUDNESS, type Level } from './mix/master.js';
export type { MixerChoice } from './mix/mix.js';
export { HEARING_CAUTION, type Marker, type PracticeSound } from './files/marker.js';
export { PRACTICE_FORMATS, practiceFormat, writePractice, type PracticeFormat } from './files/write.js';
export { clickFor, clickTrack, type ClickBeat } from './sound/clicks.js';
export type { Stereo } from './sound/stereo.js';
export {
  drillAhead,
  drillPhraseMatched,
  DRILLS,
  drillTheOne,
  type Drill,
  type DrillItem,
  type DrillName,
  type DrillOptions,
  type DrillReply,
  type DrillRules,
} from './drills/index.js';
export { answerSheet } from './answers.js';
